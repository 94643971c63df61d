import { isLeftOut, type Mark } from "../bench";
import {
	type Kind,
	type Measured,
	type NotKnown,
	type Table,
	table,
} from "../quantity";
import { outcomeCell } from "./outcome-cell";
import { labelOf } from "./replicate-sets";
import type { PropertyName } from "./standards";

/**
 * The figure of every row, in the order in which it was calculated; moistures come first.
 */
export function determinationTable({
	determinations,
	deviations,
}: {
	readonly determinations: readonly {
		readonly name: string;
		readonly sample: string;
		readonly property: PropertyName;
		readonly at: string;
		readonly outcome: Measured<Kind> | NotKnown;
		readonly marks: readonly Mark[];
	}[];
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
