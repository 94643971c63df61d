import type { Source } from "../quantity";
import type { Reading } from "./glassware/instruments";
import type { NumberCell, ParsedRow, ParsedTable } from "./parsed-table";
import type { RawCell } from "./raw-table";

/** Digits after the mark in which a plain decimal number was typed; null for every other cell. */
function decimalsTyped(cell: RawCell | undefined): number | null {
	const typed =
		typeof cell === "string" ? /^\d+(?:[.,](\d+))?$/.exec(cell) : null;
	return typed === null ? null : (typed[1]?.length ?? 0);
}

/** The cell that a number was read from. */
export function sourceOf<Key extends string>(
	table: ParsedTable<Key>,
	row: ParsedRow,
	header: string,
): Source {
	const { file, hash, sheet } = table.raw;
	const decimals = decimalsTyped(
		row.written[table.raw.headers.indexOf(header)],
	);
	return {
		is: "cell",
		file,
		hash,
		sheet,
		row: row.row,
		column: header,
		...(decimals === null ? {} : { decimals }),
	};
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
