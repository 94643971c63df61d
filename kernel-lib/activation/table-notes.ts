import type { Mark } from "../bench";

/** What the u of a table is. */
export const standardUncertainties =
	"u is the standard uncertainty of the measuring error.";

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
