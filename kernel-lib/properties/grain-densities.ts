import type { Table } from "../quantity";
import { requireSheet } from "./doors";
import { densityWindows, densityWindowTable } from "./float-sink";
import type { PropertySheet } from "./property-sheet";

/**
 * Limits of the density of the grains (g/mL) of each char that was divided in liquids, lightest part first: what floats in a liquid is lighter than it, what sinks is denser.
 * @throws ProblemError where a denser liquid floats less than a lighter one
 * @example
 * const row = { determination: "F1", sample: "my char", property: "float-sink", "liquid density (g/mL)": 1.1, "floated (g)": 2, "sunk (g)": 8 };
 * properties.grainDensities(properties.propertiesFromRows([row]))[0].table // => "Density of the grains: \"my char\""
 */
export function grainDensities(
	sheet: PropertySheet,
): readonly { readonly sample: string; readonly table: Table }[] {
	requireSheet(sheet, "grainDensities");
	return sheet.samples.flatMap((sample) => {
		const splits = sheet.splits
			.filter((s) => s.sample === sample)
			.map((s) => s.split);
		return splits.length === 0
			? []
			: [{ sample, table: densityWindowTable(sample, densityWindows(splits)) }];
	});
}
