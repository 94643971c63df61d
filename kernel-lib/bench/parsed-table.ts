import {
	type Kind,
	type Problem,
	type ProblemPlace,
	problem,
} from "../quantity";
import { type CellValue, cellReader } from "./cells";
import { headerText, type SheetName } from "./columns";
import { type ColumnMatch, type Headers, readHeaders } from "./headers";
import type { Moment } from "./moments";
import { type DecimalMark, decimalMark, markIn } from "./numbers";
import type { RawCell, RawTable } from "./raw-table";
import { settleRows } from "./stray-rows";
import { formOf, type TableForm } from "./table-form";

/** A cell that is there and could not be read; its problem has been told already. */
export const unreadable: unique symbol = Symbol("unreadable");

export interface ParsedRow {
	readonly row: number;
	/** By the index of the column; "" for an empty cell. */
	readonly values: readonly (CellValue | typeof unreadable)[];
	/** As they stand in the file. */
	readonly written: readonly RawCell[];
}

/** A table whose columns are known and whose cells are read. `Key` are the columns that it may have. */
export interface ParsedTable<Key extends string> {
	readonly raw: RawTable;
	readonly headers: Headers;
	/** The columns of one key, in the order of the file. */
	readonly columns: ReadonlyMap<Key, readonly ColumnMatch[]>;
	readonly rows: readonly ParsedRow[];
}

/** A number in a cell, with the unit that the head of its column names. */
export interface NumberCell {
	readonly value: number;
	readonly kind: Kind;
	readonly unit: string;
	readonly header: string;
	readonly match: ColumnMatch;
}

function markOf(table: RawTable, matches: readonly ColumnMatch[]): DecimalMark {
	const seen = { ",": 0, ".": 0, "": 0 };
	for (const m of matches) {
		if (m.column.holds.is !== "number") continue;
		for (const r of table.rows) {
			const cell = r.cells[m.index];
			if (typeof cell === "string") seen[markIn(cell)] += 1;
		}
	}
	return decimalMark(seen[","], seen["."]);
}

/** Recognises the columns and reads every cell; all problems at once. */
export function parseTable<Key extends string>(
	given: RawTable,
	form: SheetName | TableForm<Key>,
	problems: Problem[],
): ParsedTable<Key> {
	const { sheet } = given;
	const settled = settleRows(given, form);
	const raw = settled.table;
	problems.push(...settled.problems);
	const headers = readHeaders(raw, form);
	problems.push(...headers.problems);
	const { key } = formOf(form);
	if (!headers.matches.some((m) => m.key === key)) {
		problems.push(
			problem(
				"column-missing",
				{ file: raw.file, sheet, row: raw.headerRow, column: key },
				raw.headers.length === 0
					? "an empty table"
					: `the columns ${raw.headers.map((h) => `"${h}"`).join(", ")}`,
				`a column "${key}"`,
				"Name the columns in the first row, and give every row a name in this column.",
			),
		);
	}
	const mark = markOf(raw, headers.matches);
	const readable = headers.matches.filter((m) => m.unit !== "unreadable");
	const readers = readable.map((m) => cellReader(m, mark, raw.commaLikely));
	const rows = raw.rows.map(({ row, cells }): ParsedRow => {
		const values: (CellValue | typeof unreadable)[] = [];
		for (const m of headers.matches)
			values[m.index] = (cells[m.index] ?? "") === "" ? "" : unreadable;
		readable.forEach((m, i) => {
			const cell = cells[m.index] ?? "";
			if (cell === "") return;
			const reading = readers[i](cell);
			if (reading.ok) values[m.index] = reading.value;
			else
				for (const f of reading.faults)
					problems.push(
						problem(
							f.code,
							{ file: raw.file, sheet, row, column: m.header },
							f.found,
							f.expected,
							f.mend,
						),
					);
		});
		tooLong(raw, sheet, row, cells, problems);
		return { row, values, written: cells };
	});
	const columns = new Map<Key, ColumnMatch[]>();
	for (const m of headers.matches) {
		const list = columns.get(m.key as Key);
		if (list) list.push(m);
		else columns.set(m.key as Key, [m]);
	}
	const table = { raw, headers, columns, rows };
	doubleCells(table, problems);
	return table;
}

/** Two columns for one thing, both filled in one row: one for each unit, or heads of rows typed in that differ from row to row. */
function doubleCells<Key extends string>(
	table: ParsedTable<Key>,
	problems: Problem[],
): void {
	for (const [key, matches] of table.columns) {
		if (matches.length < 2) continue;
		for (const row of table.rows) {
			const seen = new Map<number, string>();
			for (const m of matches) {
				if (row.values[m.index] === "") continue;
				const before = seen.get(m.number);
				if (before !== undefined)
					problems.push(
						problem(
							"cell-twice",
							{ ...placeOf(table, row, key), column: m.header },
							`values in "${before}" and in "${m.header}", which are for the same thing`,
							"one of them",
							"Leave one cell empty.",
						),
					);
				seen.set(m.number, m.header);
			}
		}
	}
}

function tooLong(
	raw: RawTable,
	sheet: string,
	row: number,
	cells: readonly RawCell[],
	problems: Problem[],
): void {
	const beyond = cells.slice(raw.headers.length).find((c) => c !== "");
	// One cell more than there are heads, even an empty one at the end, is how a decimal comma between commas shows itself.
	if (cells.length <= raw.width && beyond === undefined) return;
	problems.push(
		problem(
			"row-too-long",
			{ file: raw.file, sheet, row },
			`${cells.length} cells${beyond === undefined ? "" : `, "${beyond}" beyond the last head`}`,
			`at most ${raw.width} cells, one for each head`,
			"A decimal comma in a file whose cells are separated by commas splits a number in two: use decimal points, quote the numbers, or separate the cells by semicolons.",
		),
	);
}

/** The value of a cell: "" where it is empty or there is no such column. Of several columns for one thing (one for each unit) the filled one. */
export function cellOf<Key extends string>(
	table: ParsedTable<Key>,
	row: ParsedRow,
	key: Key,
	number = 1,
): CellValue | typeof unreadable {
	for (const m of table.columns.get(key) ?? [])
		if (m.number === number && row.values[m.index] !== "")
			return row.values[m.index];
	return "";
}

export function isEmpty<Key extends string>(
	table: ParsedTable<Key>,
	row: ParsedRow,
	key: Key,
	number = 1,
): boolean {
	return cellOf(table, row, key, number) === "";
}

/** Text or choice; "" where the cell is empty or unreadable. */
export function textOf<Key extends string>(
	table: ParsedTable<Key>,
	row: ParsedRow,
	key: Key,
	number = 1,
): string {
	const value = cellOf(table, row, key, number);
	return typeof value === "string" ? value : "";
}

/** Number with its unit; null where the cell is empty or unreadable. */
export function numberOf<Key extends string>(
	table: ParsedTable<Key>,
	row: ParsedRow,
	key: Key,
	number = 1,
): NumberCell | null {
	for (const m of table.columns.get(key) ?? []) {
		const value = row.values[m.index];
		if (m.number === number && typeof value === "number")
			return { value, kind: m.kind, unit: m.unit, header: m.header, match: m };
	}
	return null;
}

export function momentOf<Key extends string>(
	table: ParsedTable<Key>,
	row: ParsedRow,
	key: Key,
	number = 1,
): Moment | null {
	const value = cellOf(table, row, key, number);
	return typeof value === "object" ? value : null;
}

/** The numbers that a numbered column occurs with, in rising order. */
export function numbersOf<Key extends string>(
	table: ParsedTable<Key>,
	...keys: readonly Key[]
): number[] {
	const found = new Set<number>();
	for (const key of keys)
		for (const m of table.columns.get(key) ?? []) found.add(m.number);
	return [...found].sort((a, b) => a - b);
}

/** Where a cell is, whether its column is there or not. */
export function placeOf<Key extends string>(
	table: ParsedTable<Key>,
	row: ParsedRow,
	key: Key,
	number = 1,
): ProblemPlace {
	const all = (table.columns.get(key) ?? []).filter((m) => m.number === number);
	const match = all.find((m) => row.values[m.index] !== "") ?? all[0];
	return {
		file: table.raw.file,
		sheet: table.raw.sheet,
		row: row.row,
		column:
			match?.header ??
			headerText(key, key.includes("#") ? String(number) : "", ""),
	};
}

/** The cells of columns that are carried along, as written. */
export function extraOf<Key extends string>(
	table: ParsedTable<Key>,
	cells: readonly RawCell[],
): Readonly<Record<string, string>> {
	if (table.headers.unknown.length === 0) return nothing;
	const extra = new Map<string, string>();
	for (const { index, header } of table.headers.unknown) {
		let name = header;
		for (let k = 2; extra.has(name); k++) name = `${header} [${k}]`;
		extra.set(name, String(cells[index] ?? ""));
	}
	// Every name is one here, "__proto__" too.
	return Object.fromEntries(extra);
}

const nothing: Readonly<Record<string, string>> = Object.freeze({});
