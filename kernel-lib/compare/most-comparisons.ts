import { type Problem, problem } from "../quantity";

/** So many treatments are compared at once: simultaneous limits were held against other ways up to here, and more would take minutes. Our decision. */
export const mostComparisons = 500;

/** The problem of a trial with more treatments to compare than that; empty for others. */
export function tooManyComparisons(count: number, file = ""): Problem[] {
	return count <= mostComparisons
		? []
		: [
				problem(
					"too-many-comparisons",
					{ file, column: "treatment" },
					`${count} treatments to compare at once`,
					`at most ${mostComparisons}`,
					"Divide the sheet into several, each with its control, or compare a choice of flasks (bench.selectFlasks).",
				),
			];
}
