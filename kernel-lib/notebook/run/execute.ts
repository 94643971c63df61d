/** Runs the cells of a notebook one after the other on a kernel and puts the outputs where they belong. */
import { type CodeCell, hasTag, type Notebook, type Output } from "../ipynb";
import { stripped } from "../strip";
import { type ExecuteReply, startKernel } from "./client";

/** What a run tells of itself while it goes on. Cells count from 1, code cells only. */
export interface Progress {
	started(cell: number, of: number, firstLine: string): void;
	ended(cell: number, ok: boolean, milliseconds: number): void;
}

export type RunEnd =
	| { readonly is: "complete" }
	| {
			readonly is: "failed";
			/** Which code cell, from 1, and its id. */
			readonly cell: number;
			readonly id: string;
			/** As a person should read it, several lines. */
			readonly message: string;
	  };

export interface RunOutcome {
	/** The notebook with the outputs of every cell that ran. */
	readonly notebook: Notebook;
	readonly end: RunEnd;
}

export interface RunOptions {
	/** Working folder of the kernel. */
	readonly folder: string;
	/** Limit for one cell. */
	readonly timeoutSeconds: number;
	readonly progress: Progress;
	/** How long the kernel may take to come up. */
	readonly startSeconds: number;
	/** Aborting it interrupts the running cell and ends the run. */
	readonly signal: AbortSignal;
}

/** Where a display stands: among the outputs of the cell that first showed it. */
interface DisplayPlace {
	readonly outputs: Output[];
	readonly at: number;
}

/** Puts one message of the kernel into a cell's outputs; streams flow together, updates replace what they update, in whichever cell that is. */
function collect(
	outputs: Output[],
	displays: Map<string, DisplayPlace>,
	type: string,
	content: Readonly<Record<string, unknown>>,
): void {
	const last = outputs[outputs.length - 1];
	const id = (content.transient as { display_id?: string } | undefined)
		?.display_id;
	if (type === "stream") {
		const { name, text } = content as { name: string; text: string };
		if (last?.output_type === "stream" && last.name === name) last.text += text;
		else outputs.push({ output_type: "stream", name, text });
	} else if (type === "display_data" || type === "update_display_data") {
		const shown: Output = {
			output_type: "display_data",
			data: content.data as Record<string, unknown>,
			metadata: (content.metadata ?? {}) as Record<string, unknown>,
		};
		const place = id === undefined ? undefined : displays.get(id);
		if (type === "update_display_data" && place !== undefined)
			place.outputs[place.at] = shown;
		else {
			if (id !== undefined) displays.set(id, { outputs, at: outputs.length });
			outputs.push(shown);
		}
	} else if (type === "error") {
		const { ename, evalue, traceback } = content as {
			ename: string;
			evalue: string;
			traceback: string[];
		};
		outputs.push({ output_type: "error", ename, evalue, traceback });
	}
}

function runnerError(ename: string, evalue: string): Output {
	return {
		output_type: "error",
		ename,
		evalue,
		traceback: [`${ename}: ${evalue}`],
	};
}

/** An interruption that found its cell done already. */
const stoppedBetween = runnerError(
	"Interrupted",
	"The run was stopped after this cell.",
);

/** How long a cell that was interrupted may take to end before its kernel is killed. */
const patienceMilliseconds = 5000;

/** A failure that the kernel could not report itself. */
function lastWords(reply: ExecuteReply): Output[] {
	if (reply.is === "timed out")
		return [
			runnerError(
				"Timeout",
				`The cell was stopped after ${reply.seconds} seconds. Give it longer with --timeout, or make it do less.`,
			),
		];
	return reply.is === "kernel died"
		? [runnerError("KernelEnded", reply.because)]
		: [];
}

function messageOf(outputs: readonly Output[]): string {
	return outputs
		.flatMap((o) => (o.output_type === "error" ? o.traceback : []))
		.join("\n");
}

function firstLine(source: string): string {
	return (source.split("\n").find((line) => line.trim() !== "") ?? "").trim();
}

/** Runs every code cell until one fails. Cells tagged `raises-exception` may fail; cells tagged `skip-execution` are left out. */
export async function executeNotebook(
	notebook: Notebook,
	options: RunOptions,
): Promise<RunOutcome> {
	const result = stripped(notebook);
	const { cells } = result;
	const code = cells.filter(
		(c): c is CodeCell =>
			c.cell_type === "code" &&
			c.source.trim() !== "" &&
			!hasTag(c, "skip-execution"),
	);
	const { signal } = options;
	const kernel = await startKernel(options.folder, options);
	const interrupt = (): void => {
		kernel.interrupt();
		setTimeout(() => void kernel.stop(), patienceMilliseconds).unref();
	};
	signal.addEventListener("abort", interrupt);
	const displays = new Map<string, DisplayPlace>();
	try {
		for (const [i, cell] of code.entries()) {
			options.progress.started(i + 1, code.length, firstLine(cell.source));
			const begin = performance.now();
			const began = new Date();
			const mayFail = hasTag(cell, "raises-exception");
			const reply = await kernel.execute(
				{ id: cell.id ?? "", source: cell.source },
				{ stopOnError: !mayFail, timeoutSeconds: options.timeoutSeconds },
				(type, content) => collect(cell.outputs, displays, type, content),
			);
			cell.outputs.push(
				...lastWords(reply),
				...(signal.aborted && reply.is === "ok" ? [stoppedBetween] : []),
			);
			if ("count" in reply) cell.execution_count = reply.count;
			cell.metadata.execution = {
				"iopub.execute_input": began.toISOString(),
				"shell.execute_reply": new Date().toISOString(),
			};
			const ok =
				!signal.aborted &&
				(reply.is === "ok" || (reply.is === "error" && mayFail));
			options.progress.ended(i + 1, ok, performance.now() - begin);
			if (!ok)
				return {
					notebook: result,
					end: {
						is: "failed",
						cell: i + 1,
						id: cell.id ?? "",
						message: messageOf(cell.outputs),
					},
				};
		}
		return { notebook: result, end: { is: "complete" } };
	} finally {
		signal.removeEventListener("abort", interrupt);
		await kernel.stop();
	}
}
