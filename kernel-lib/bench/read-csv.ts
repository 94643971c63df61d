import Papa from "papaparse";
import { type RawCell, type RawTable, tableOfGrid, tidy } from "./raw-table";

/** UTF-16 where its mark says so, or every other byte at the start is empty; the first character of a table is a letter of a head. */
function utf16(bytes: Uint8Array): "utf-16le" | "utf-16be" | "no" {
	const [first, second] = bytes;
	if ((first === 0xff && second === 0xfe) || (first > 0 && second === 0))
		return "utf-16le";
	return (first === 0xfe && second === 0xff) || (first === 0 && second > 0)
		? "utf-16be"
		: "no";
}

/** Text of a CSV file: UTF-16 or UTF-8; bytes that are not UTF-8 are taken for Windows-1252, as older spreadsheets write it. */
function decode(bytes: Uint8Array): { text: string; remark: string } {
	const wide = utf16(bytes);
	if (wide !== "no")
		return { text: new TextDecoder(wide).decode(bytes), remark: "" };
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
