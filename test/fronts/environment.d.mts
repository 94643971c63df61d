interface Environment {
	readonly folder: string;
	binary(name: string): string;
}
export declare const root: string;
export declare function makeEnvironment(): Environment;
export declare function environmentWith(
	name: string,
	requirements: string,
	minor: number,
): Environment;
