import type { FlaskKey } from "./columns";
import {
	type NumberCell,
	numberOf,
	type ParsedRow,
	type ParsedTable,
} from "./parsed-table";

/** One thing that happened to the liquid, as its cell says it; `cell` is null where the cell could not be read. */
export interface EventCell {
	readonly is: "dose" | "liquid added" | "made up" | "withdrawn";
	readonly number: number;
	readonly cell: NumberCell | null;
}

const eventOf: Partial<Record<FlaskKey, EventCell["is"]>> = {
	"dose #": "dose",
	"liquid added #": "liquid added",
	"made up to": "made up",
	"withdrawn #": "withdrawn",
};

/** What happened to the liquid of a flask, in the order of the columns from left to right; filled cells only. */
export function flaskEvents(
	table: ParsedTable<FlaskKey>,
	row: ParsedRow,
): EventCell[] {
	const events: EventCell[] = [];
	for (const m of table.headers.matches) {
		const is = eventOf[m.key as FlaskKey];
		if (is === undefined || row.values[m.index] === "") continue;
		events.push({
			is,
			number: m.number,
			cell: numberOf(table, row, m.key as FlaskKey, m.number),
		});
	}
	return events;
}
