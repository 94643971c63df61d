import { guideTo } from "../bench";
import { type Table, table } from "../quantity";
import { propertyForm } from "./columns";
import { deviationForm } from "./deviations";

/**
 * Every column that a table of property readings (NAME.csv) and the table of its deviations (NAME.deviations.csv) may have, with its unit and when it must be filled.
 * @example
 * properties.propertyColumnGuide().rows[0][1] // => "determination"
 */
export function propertyColumnGuide(): Table {
	const guides = [propertyForm, deviationForm].map((form) => ({
		form,
		guide: guideTo(form),
	}));
	return table(
		"Columns of a table of properties",
		["table", ...guides[0].guide.columns],
		guides.flatMap(({ form, guide }) =>
			guide.rows.map((row) => [form.name, ...row]),
		),
		guides[0].guide.notes,
	);
}
