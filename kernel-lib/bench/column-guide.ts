import { type Table, table } from "../quantity";
import type { Column } from "./column";
import { headerText, sheetNames, sheets } from "./columns";
import type { TableForm } from "./table-form";

function unitsOf({ holds }: Column): string {
	switch (holds.is) {
		case "number":
			return holds.units.length === 0 ? "number" : holds.units.join(", ");
		case "choice":
			return Object.keys(holds.choices).join(" | ");
		case "date":
			return "date, or date and time";
		case "text":
			return "text";
	}
}

const heads = ["column", "holds", "needed in", "if empty", "meaning"];

const unitNote =
	"The unit stands in round brackets after the name and may be any of those named. A 1 stands for a number: dose 1, dose 2 and so on; it may be left out where there is only one.";

/** What each column holds, when it must be filled and what is assumed where it is empty. */
function guideRows(columns: Readonly<Record<string, Column>>): string[][] {
	return Object.entries(columns).map(([key, column]) => [
		headerText(
			key,
			"1",
			column.holds.is === "number" ? (column.holds.units[0] ?? "") : "",
		),
		unitsOf(column),
		column.required,
		column.otherwise,
		column.meaning,
	]);
}

/**
 * Every column that a bench sheet may have: how its head is written, what it holds, when it must be filled and what is assumed where it is empty.
 * @example
 * bench.columnGuide().columns // => ["table", "column", "holds", "needed in", "if empty", "meaning"]
 */
export function columnGuide(): Table {
	return table(
		"Columns of a bench sheet",
		["table", ...heads],
		sheetNames.flatMap((sheet) =>
			guideRows(sheets[sheet].columns).map((row) => [sheet, ...row]),
		),
		[
			unitNote,
			"Doses, liquids added, making up and withdrawals happen in the order of their columns from left to right. An empty cell is never taken for 0. Columns that are not in this list are carried along.",
		],
	);
}

/** The same for a table of another form. */
export function guideTo(form: TableForm): Table {
	return table(
		`Columns of a table of ${form.name}`,
		heads,
		guideRows(form.columns),
		[
			unitNote,
			"An empty cell is never taken for 0. Columns that are not in this list are not used.",
		],
	);
}
