import { kept, type Table, withTable } from "../quantity";
import { type CharProperty, propertiesOfSheet } from "./char-property";
import { requireSheet } from "./doors";
import type { PropertySheet } from "./property-sheet";
import { standardsTable } from "./standards";
import { agreementTable, propertyTable } from "./tables";

/** The properties of the chars, shown as a table. */
export interface CharProperties extends ReadonlyArray<CharProperty> {
	/** One line for each property of each char, and what was left out. */
	readonly table: Table;
	/** Whether replicates agree, and what to do where they do not. */
	readonly agreement: Table;
	/** Every property that can be determined, with its standard, formula and basis. */
	readonly methods: Table;
}

const charPropertiesKept = kept((sheet: PropertySheet): CharProperties => {
	const list = propertiesOfSheet(sheet);
	return withTable(
		withTable(
			withTable(list, () => propertyTable(list, sheet.deviations)),
			() => agreementTable(list, sheet.deviations),
			"agreement",
		),
		standardsTable,
		"methods",
	);
});

/**
 * The properties of every char in a table: the mean of its determinations with a 95 % interval, their standard deviation, and whether they agree. The scatter of a property is pooled over
 * the chars of the table. Fixed carbon follows where ash and volatile matter are there. What a deviation leaves out is out. Shown as a table;
 * its `agreement` is a second one, which holds the replicates against each other, its `methods` a third, which says how each property is determined.
 * @example
 * const row = { sample: "my char", property: "moisture", "dish (g)": 20, "dish and sample (g)": 30 };
 * const two = properties.propertiesFromRows([{ ...row, determination: "M1", "dish after (g)": 29.2 }, { ...row, determination: "M2", "dish after (g)": 29.22 }]);
 * const [water] = properties.charProperties(two);
 * water.outcome.is === "value" ? water.outcome.quantity.in("%") : 0 // => 7.9
 * properties.charProperties(two).methods.rows[0][1] // => "ASTM D2867 (oven)"
 */
export function charProperties(sheet: PropertySheet): CharProperties {
	requireSheet(sheet, "");
	return charPropertiesKept(sheet);
}
