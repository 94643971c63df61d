import { refuse } from "./problem";

/** What a call was given, in words. */
export function foundText(given: unknown): string {
	if (given === undefined) return "nothing (undefined)";
	if (given === null) return "nothing (null)";
	if (typeof given === "string") return `the text "${given}"`;
	if (Array.isArray(given)) return "a list";
	if (typeof given === "object") return "an object of another kind";
	if (typeof given === "function") return "a function";
	return String(given);
}

/** The same for what should be a name: one that is not known is quoted, anything else is told for what it is. */
export function foundName(what: string, given: unknown): string {
	return typeof given === "string" ? `${what} "${given}"` : foundText(given);
}

function has(given: unknown, parts: readonly string[]): boolean {
	return (
		typeof given === "object" &&
		given !== null &&
		parts.every((part) => part in given)
	);
}

/** What a result is known by, and how a person gets one. */
export interface ResultKind {
	/** Names that every such result has. */
	readonly parts: readonly string[];
	/** "the fit that isotherms.fitIsotherm(isotherm, points) returns". */
	readonly expected: string;
}

/**
 * The door of a call that takes the result of another: notebooks are not compiled strictly, so that a list, a trial or nothing may arrive where one is meant.
 * @throws ProblemError for anything without the parts that such a result has
 */
export function requireResult(
	given: unknown,
	{ parts, expected }: ResultKind,
	of: string,
): void {
	if (!has(given, parts))
		refuse(
			"wrong-argument",
			of,
			foundText(given),
			expected,
			"Give what is expected in this place.",
		);
}

/** The door for one kind of result, with its call. */
export const doorFor =
	(kind: ResultKind) =>
	(given: unknown, of: string): void =>
		requireResult(given, kind, of);

/**
 * The door of a list.
 * @param entries what each entry is: "a quantity"
 * @throws ProblemError for anything else
 */
export function requireList(
	given: unknown,
	entries: string,
	of: string,
): asserts given is readonly unknown[] {
	if (!Array.isArray(given))
		refuse(
			"wrong-argument",
			of,
			foundText(given),
			`a list; each entry ${entries}`,
			"Put it into square brackets.",
		);
}

/**
 * The door of numbers, in an ordinary list or a typed array; each of them is looked at where it is used.
 * @throws ProblemError for anything else
 */
export function requireNumbers(given: unknown, of: string): void {
	if (!Array.isArray(given) && !ArrayBuffer.isView(given))
		refuse(
			"wrong-argument",
			of,
			foundText(given),
			"a list of numbers",
			"Put the numbers into square brackets, such as [1.02, 1.05, 0.99].",
		);
}

/**
 * The door of a text.
 * @param expected "the name of a substance in quotes, such as ..."
 * @throws ProblemError for anything else
 */
export function requireText(
	given: unknown,
	expected: string,
	of: string,
): asserts given is string {
	if (typeof given !== "string")
		refuse(
			"wrong-argument",
			of,
			foundText(given),
			expected,
			"Write it in quotes.",
		);
}

/**
 * The same for a list of such results.
 * @throws ProblemError for what is no list, and for the first entry that is none of them
 */
export function requireResults(
	given: unknown,
	kind: ResultKind,
	of: string,
): void {
	requireList(given, kind.expected, of);
	for (const entry of given) requireResult(entry, kind, of);
}
