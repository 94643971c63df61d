import Papa from "papaparse";
import { type RawCell, type RawTable, tableOfGrid, tidy } from "./raw-table";

/** Text of a CSV file: UTF-8 or UTF-16 by its mark; bytes that are not UTF-8 are taken for Windows-1252, as older spreadsheets write it. */
function decode(bytes: Uint8Array): { text: string; remark: string } {
	if (bytes[0] === 0xff && bytes[1] === 0xfe)
		return { text: new TextDecoder("utf-16le").decode(bytes), remark: "" };
	if (bytes[0] === 0xfe && bytes[1] === 0xff)
		return { text: new TextDecoder("utf-16be").decode(bytes), remark: "" };
	try {
		return {
			text: new TextDecoder("utf-8", { fatal: true }).decode(bytes),
			remark: "",
		};
	} catch {
		return {
			text: new TextDecoder("windows-1252").decode(bytes),
			remark: "The file is not UTF-8; it was read as Windows-1252.",
		};
	}
}

/** The mark between the cells, from the first line: a tab, a semicolon or a bar outside quotes decides, else a comma. */
function delimiterOf(text: string): string {
	const line = text.slice(0, text.search(/[\r\n]|$/)).replace(/"[^"]*"/g, "");
	return ["\t", ";", "|"].find((mark) => line.includes(mark)) ?? ",";
}

/** Reads a CSV text (comma, semicolon, tab or bar) into a table. Every cell is text; row numbers count records, as a spreadsheet shows them. */
export function readCsv(
	bytes: Uint8Array,
	keys: readonly string[],
	about: Pick<RawTable, "file" | "hash" | "sheet">,
): RawTable {
	const { text, remark } = decode(bytes);
	// Some spreadsheets put "sep=;" on a line of its own before the table. The line stays, so that row numbers are right.
	const declared = /^sep=(.)\r?\n/i.exec(text);
	const delimiter = declared ? declared[1] : delimiterOf(text.trimStart());
	const grid = Papa.parse<string[]>(text, {
		delimiter,
		skipEmptyLines: false,
	}).data.map((r): RawCell[] => r.map(tidy));
	if (declared) grid[0] = [];
	const remarks = remark === "" ? [] : [`${about.file}: ${remark}`];
	return tableOfGrid(grid, keys, {
		...about,
		headsByRow: false,
		commaLikely: delimiter === ";" || delimiter === "\t",
		remarks,
	});
}
