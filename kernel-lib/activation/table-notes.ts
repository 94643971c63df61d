import type { Mark } from "../bench";

/** What the ± of a table is. */
export const standardUncertainties =
	"After each ± stands one standard uncertainty (k = 1).";

/** Parts of a firing that a deviation leaves out, a sentence each. */
export function leftOutOf(
	parts: readonly {
		readonly number: number;
		readonly marks: readonly Mark[];
	}[],
	what: string,
): string[] {
	return parts.flatMap(({ number, marks }) =>
		marks
			.filter((m) => m.handling === "leave out")
			.map((m) => `Left out: ${what} ${number} (${m.whatHappened}).`),
	);
}
