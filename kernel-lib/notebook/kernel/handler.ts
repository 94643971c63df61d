/** What a kernel does, without a word about how it is asked: no transport is known here. */

/** An error as front ends show it. */
export interface KernelError {
	readonly ename: string;
	readonly evalue: string;
	readonly traceback: readonly string[];
}

export type ExecuteResult =
	| { readonly is: "ok" }
	| { readonly is: "error"; readonly error: KernelError };

/** Sends an output of the running cell to the front ends. */
export type Publish = (
	type: "stream" | "display_data" | "update_display_data",
	content: Readonly<Record<string, unknown>>,
) => void;

/** What a kernel does; the server does the talking. */
export interface KernelHandler {
	readonly info: Readonly<Record<string, unknown>>;
	execute(
		code: string,
		count: number,
		publish: Publish,
		/** Id of the cell as the front end knows it; "" where it does not say. */
		cell: string,
	): Promise<ExecuteResult>;
	complete(
		code: string,
		position: number,
	): {
		readonly start: number;
		readonly end: number;
		readonly candidates: readonly string[];
	};
	inspect(code: string, position: number): string;
	isComplete(code: string): {
		readonly complete: boolean;
		readonly indent: string;
	};
	interrupt(): void;
	shutdown(): void;
}
