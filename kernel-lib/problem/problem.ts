/** Where a problem was found: a cell of a sheet, a cell of a notebook, or a named thing. Empty parts are empty strings, row 0 means "no row". */
export interface ProblemPlace {
	readonly file: string;
	readonly sheet: string;
	/** Row as a person counts it in the file, header included; 0 where no row is meant. */
	readonly row: number;
	readonly column: string;
	/** The function that was called, the option or the points that it was given, where no sheet is meant. */
	readonly call?: string;
}

/** One thing that is wrong and how to mend it. Readers and checks return lists of these; `throwProblems` is the only place that turns them into an error. */
export interface Problem {
	/** Short stable code in kebab-case, for tests and for looking it up. */
	readonly code: string;
	readonly where: ProblemPlace;
	readonly found: string;
	readonly expected: string;
	readonly mend: string;
}

/** What a check returns: the value, or everything that is wrong with it. */
export type Checked<T> =
	| { readonly ok: true; readonly value: T }
	| { readonly ok: false; readonly problems: readonly Problem[] };

export const nowhere: ProblemPlace = {
	file: "",
	sheet: "",
	row: 0,
	column: "",
};

/** What a cell holds is shown up to so many letters. */
const mostShown = 200;

/** A sentence whose quoted parts are no longer than a reader wants. */
function shortened(text: string): string {
	return text.length <= mostShown
		? text
		: text.replace(/"([^"]*)"/g, (quoted, inside: string) =>
				inside.length > mostShown ? `"${inside.slice(0, mostShown)}…"` : quoted,
			);
}

export function problem(
	code: string,
	where: Partial<ProblemPlace>,
	found: string,
	expected: string,
	mend: string,
): Problem {
	return {
		code,
		where: { ...nowhere, ...where },
		found: shortened(found),
		expected: shortened(expected),
		mend: shortened(mend),
	};
}

function placeText(where: ProblemPlace): string {
	const parts = [
		where.file,
		where.sheet && `sheet "${where.sheet}"`,
		where.row > 0 && `row ${where.row}`,
		where.column && `column "${where.column}"`,
		where.call,
	].filter(Boolean);
	return parts.length > 0 ? `${parts.join(", ")}: ` : "";
}

/** One sentence a person can act on. */
export function problemText(p: Problem): string {
	return `${placeText(p.where)}found ${p.found}; expected ${p.expected}. ${p.mend}`;
}

/** The error that a person sees. `problems` keeps the fields for programs. */
export class ProblemError extends Error {
	readonly problems: readonly Problem[];
	constructor(problems: readonly Problem[]) {
		const head =
			problems.length === 1
				? ""
				: `${problems.length} problems, all listed:\n  `;
		super(head + problems.map(problemText).join("\n  "));
		this.name = "ProblemError";
		this.problems = problems;
	}
}

/** The one thrower. Does nothing when the list is empty. */
export function throwProblems(problems: readonly Problem[]): void {
	if (problems.length > 0) throw new ProblemError(problems);
}

/** Refuses what a call was given, with one problem. `of` names the call. */
export function refuse(
	code: string,
	of: string,
	found: string,
	expected: string,
	mend: string,
): never {
	throw new ProblemError([problem(code, { call: of }, found, expected, mend)]);
}

/** The value of a check, or the error with all its problems. */
export function valueOrThrow<T>(checked: Checked<T>): T {
	if (checked.ok) return checked.value;
	throw new ProblemError(checked.problems);
}
