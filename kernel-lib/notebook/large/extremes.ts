import type { Table } from "../../quantity";
import { numberOf } from "./column-numbers";

/** The rows that hold the lowest or the highest number of a column, in the order of the table; of those that are alike the first. A table of words alone has none. */
export function extremeRows({ columns, rows }: Table): readonly number[] {
	const shown = new Set<number>();
	columns.forEach((_, i) => {
		let lowest = { row: -1, value: Number.POSITIVE_INFINITY };
		let highest = { row: -1, value: Number.NEGATIVE_INFINITY };
		rows.forEach((cells, row) => {
			const value = numberOf(cells[i]);
			if (value === null) return;
			if (value < lowest.value) lowest = { row, value };
			if (value > highest.value) highest = { row, value };
		});
		if (lowest.row >= 0) shown.add(lowest.row).add(highest.row);
	});
	return [...shown].sort((a, b) => a - b);
}
