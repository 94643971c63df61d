export declare const root: string;
export declare function makeEnvironment(): {
	readonly folder: string;
	binary(name: string): string;
};
