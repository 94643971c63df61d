import { isLeftOut } from "../bench";
import { type Table, table } from "../quantity";
import type { Determination } from "./determination";
import { outcomeCell } from "./outcome-cell";
import { labelOf } from "./replicate-sets";

/**
 * The figure of every row, in the order in which it was calculated; moistures come first.
 */
export function determinationTable({
	determinations,
	deviations,
}: {
	readonly determinations: readonly Determination[];
	readonly deviations: readonly string[];
}): Table {
	return table(
		"Row by row",
		["determination", "char", "property", "result"],
		determinations.map((d) => [
			d.name,
			d.sample,
			labelOf(d),
			isLeftOut(d) ? "left out" : outcomeCell(d.outcome),
		]),
		["The uncertainty of a row is that of its readings alone.", ...deviations],
	);
}
