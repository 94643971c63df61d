/** A file of a sheet as it stands, for whoever shows its cells: nothing is checked here. */
import { sheetNames, sheets } from "./columns";
import { readHeaders } from "./headers";
import type { RawTable } from "./raw-table";
import { readCsv } from "./read-csv";
import { readXlsx } from "./read-xlsx";
import { keyHeads } from "./table-form";

/** A table of a file, every cell as it was read. */
export interface TableAsRead
	extends Pick<RawTable, "sheet" | "headers" | "headerRow" | "rows"> {
	/** Indices of the columns that name the flasks and what was done to their chars; -1 where there is none. */
	readonly flaskColumn: number;
	readonly treatmentColumn: number;
}

/** NAME.solutions.csv holds the solutions, a file without such a word the flasks. */
function sheetOf(file: string): (typeof sheetNames)[number] {
	const word = /\.([^.]+)\.[^.]+$/.exec(file.toLowerCase())?.[1];
	return sheetNames.find((name) => name === word) ?? "flasks";
}

function asRead(table: RawTable): TableAsRead {
	const { sheet, headers, headerRow, rows } = table;
	const matches =
		sheet === "flasks" ? readHeaders(table, "flasks").matches : [];
	const columnOf = (key: keyof typeof sheets.flasks.columns): number =>
		matches.find((m) => m.key === key)?.index ?? -1;
	return {
		sheet,
		headers,
		headerRow,
		rows,
		flaskColumn: columnOf("flask"),
		treatmentColumn: columnOf("treatment"),
	};
}

/**
 * The tables of a file that was read before.
 * @param heads some heads of its columns, by which a table of another kind than those of a bench sheet is found
 */
export function tablesAsRead(
	file: string,
	content: Uint8Array,
	heads: readonly string[],
): readonly TableAsRead[] {
	const about = { file, hash: "" };
	if (content[0] === 0x50 && content[1] === 0x4b)
		return readXlsx(content, about).tables.map(asRead);
	const sheet = sheetOf(file);
	const keys = [
		...keyHeads(sheets[sheet]),
		...heads.map((head) => head.toLowerCase()),
	];
	return [asRead(readCsv(content, keys, { ...about, sheet }))];
}
