/** Turns what went wrong in a cell into something a person can act on: one sentence, the line of the cell, the rest folded. */
import { kindText } from "../../quantity";
import { successorInMessage } from "./gone-names";
import type { KernelError } from "./handler";
import type { CellPlace, Diagnostic } from "./tslab";

/** The code of the cells that ran, by the name they have in stack traces. */
export interface CellSources {
	/** Name of the cell that failed. */
	readonly current: string;
	sourceOf(cell: string): string;
	/** How the person knows the cell, e.g. "cell [3]". */
	titleOf(cell: string): string;
	placeOf(script: string, line: number, column: number): CellPlace | null;
}

const interruptedError: KernelError = {
	ename: "Interrupted",
	evalue:
		"The cell was interrupted. What earlier cells have made is still there.",
	traceback: [
		"Interrupted: the cell was stopped. What earlier cells have made is still there.",
	],
};

function isInterrupt(error: unknown): boolean {
	return (
		error instanceof Error &&
		((error as { code?: string }).code === "ERR_SCRIPT_EXECUTION_INTERRUPTED" ||
			error.message === "Interrupted asynchronously")
	);
}

function lineOf(source: string, line: number): string {
	return (source.split("\n")[line - 1] ?? "").trim();
}

/** The compiler's message in the words of a bench where kinds of quantity were mixed up, or with the successor of a name that is gone. */
export function plainMessage(message: string): string {
	const successor = successorInMessage(message);
	if (successor !== "") return successor;
	const mixed =
		/^(?:Argument of type|Type) 'Quantity<"(\w+)">' is not assignable to (?:parameter of )?type 'Quantity<"(\w+)">'/.exec(
			message,
		);
	return mixed === null
		? message
		: `this is ${kindText(mixed[1])}, and ${kindText(mixed[2])} is needed here.`;
}

/** A cell that the compiler refused. */
export function explainDiagnostics(
	diagnostics: readonly Diagnostic[],
	source: string,
): KernelError {
	// The compiler explains one fault in several messages at one place; the first says what, the rest why.
	const faults = new Map<string, Diagnostic[]>();
	for (const d of diagnostics) {
		const place = `${d.line}:${d.column}`;
		faults.set(place, [...(faults.get(place) ?? []), d]);
	}
	const lines: string[] = [];
	for (const [first, ...details] of faults.values()) {
		lines.push(
			`Line ${first.line}, column ${first.column}: ${plainMessage(first.message)}`,
			`    ${lineOf(source, first.line)}`,
			...details.map((d) => `    ${d.message}`),
		);
	}
	return { ename: "TypeScript", evalue: lines[0], traceback: lines };
}

interface Frame {
	readonly script: string;
	readonly line: number;
	readonly column: number;
}

function framesOf(stack: string): Frame[] {
	return stack
		.split("\n")
		.map((text) => /^\s+at (?:.*\()?(.*?):(\d+):(\d+)\)?$/.exec(text))
		.filter((match) => match !== null)
		.map((match) => ({
			script: match[1],
			line: Number(match[2]),
			column: Number(match[3]),
		}));
}

/** An error that a cell threw, whatever was thrown. */
export function explainThrown(
	thrown: unknown,
	cells: CellSources,
): KernelError {
	if (isInterrupt(thrown)) return interruptedError;
	const told = thrown instanceof Error && thrown.name === "ProblemError";
	const ename = thrown instanceof Error ? thrown.name : "Thrown";
	const evalue = thrown instanceof Error ? thrown.message : String(thrown);
	const frames = thrown instanceof Error ? framesOf(thrown.stack ?? "") : [];
	const found = frames.map((f) => cells.placeOf(f.script, f.line, f.column));
	const places = found
		.filter((place) => place !== null)
		.filter(
			(place, i, all) =>
				i === 0 ||
				place.line !== all[i - 1].line ||
				place.cell !== all[i - 1].cell,
		);
	// Calls that the cell made and that ended in the error; what called the cell is of no use to anybody.
	const inside = found.findIndex((place) => place !== null);
	return {
		ename,
		evalue,
		traceback: [
			// A problem that was told in words needs no class in front of it, and no hunt through the library.
			told ? evalue : `${ename}: ${evalue}`,
			...places.map(
				(place) =>
					`  at line ${place.line} of ${place.cell === cells.current ? "this cell" : cells.titleOf(place.cell)}:  ${lineOf(cells.sourceOf(place.cell), place.line)}`,
			),
			...(inside > 0 && !told
				? [
						`  (${inside} ${inside === 1 ? "call" : "calls"} inside libraries not shown; catch the error and print its stack to see them)`,
					]
				: []),
		],
	};
}
