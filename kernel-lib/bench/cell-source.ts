import type { Source } from "../quantity";
import type { Reading } from "./glassware/instruments";
import type { NumberCell, ParsedRow, ParsedTable } from "./parsed-table";

/** The cell that a number was read from. */
export function sourceOf<Key extends string>(
	table: ParsedTable<Key>,
	row: ParsedRow,
	header: string,
): Source {
	const { file, hash, sheet } = table.raw;
	return { is: "cell", file, hash, sheet, row: row.row, column: header };
}

export function readingOf<Key extends string>(
	table: ParsedTable<Key>,
	row: ParsedRow,
	cell: NumberCell,
	symbol: string,
	meaning: string,
): Reading {
	return {
		value: cell.value,
		unit: cell.unit,
		source: sourceOf(table, row, cell.header),
		symbol,
		meaning,
	};
}
