import type { Difference } from "../compare";
import type { Interval } from "./description";

/** What is drawn of a difference: estimate and ends, or a limit. */
type Drawn =
	| Pick<
			Extract<Difference, { is: "estimate" }>,
			"is" | "low" | "estimate" | "high"
	  >
	| { readonly is: "at least" | "at most"; readonly limit: number }
	| { readonly is: "not available" };

/** The numbers that are drawn of a difference; none where there is none. */
export function differenceEnds(difference: Drawn): number[] {
	switch (difference.is) {
		case "estimate":
			return [difference.low, difference.estimate, difference.high];
		case "at least":
		case "at most":
			return [difference.limit];
		case "not available":
			return [];
	}
}

/** A bar that reaches farther from zero than this many times the usual is cut off, for beside it the others would be dots. Our decision. */
export const longestBar = 10;

/** The value below which that part of a list lies. */
function quantile(values: readonly number[], part: number): number {
	const sorted = [...values].sort((a, b) => a - b);
	return sorted[Math.floor(part * (sorted.length - 1))] ?? 0;
}

/**
 * The stretch of differences that an axis is about; null for all of them. Usual is what a third of the numbers do not exceed, such as the estimates of one sound interval in three rows, and never less than the margin;
 * without a margin, what half of them do not exceed.
 *
 * @param margins how large a difference would matter, for each row that has a margin
 * @param ends estimates, ends of intervals and limits
 */
export function differenceStretch(
	margins: readonly number[],
	ends: readonly number[],
): Interval | null {
	const sizes = ends.map(Math.abs);
	const usual =
		margins.length > 0
			? Math.max(...margins, quantile(sizes, 1 / 3))
			: quantile(sizes, 1 / 2);
	const kept = ends.filter((v) => Math.abs(v) <= longestBar * usual);
	if (kept.length === ends.length) return null;
	const all = [0, ...kept, ...margins, ...margins.map((m) => -m)];
	return { low: Math.min(...all), high: Math.max(...all) };
}
