import { existsSync, readFileSync, statSync } from "node:fs";
import { basename } from "node:path";
import {
	type Source as CellSource,
	contentHash,
	type Kind,
	type Problem,
	type ProblemPlace,
	problem,
} from "../quantity";
import { anotherTable } from "./another-table";
import { sourceOf } from "./cell-source";
import {
	isEmpty,
	numberOf,
	numbersOf,
	type ParsedTable,
	parseTable,
	placeOf,
	textOf,
} from "./parsed-table";
import type { RawTable } from "./raw-table";
import { readCsv } from "./read-csv";
import { type TypedRow, tableOf } from "./read-rows";
import { readabilityOf } from "./readability";
import { requirePath } from "./require-path";
import { keyHeads, type TableForm } from "./table-form";
import type { Recorded, Source } from "./trial";

/** A number as it stands in a cell. */
export interface NumberRead {
	readonly value: number;
	/** In the library's spelling; "" for a bare number. */
	readonly unit: string;
	readonly kind: Kind;
	readonly source: CellSource;
}

/** A row of a further table, its cells by the names of their columns. */
export interface FurtherRow<Key extends string = string> {
	/** As a person counts it in the file. */
	readonly row: number;
	/** Text or choice; "" where the cell is empty or could not be read. */
	text(key: Key): string;
	/** Not recorded where the cell is empty or could not be read. */
	number(key: Key, number?: number): Recorded<NumberRead>;
	/** True for an empty cell, false for one that could not be read. */
	isEmpty(key: Key, number?: number): boolean;
	place(key: Key, number?: number): ProblemPlace;
}

/** A table beside those of the bench sheet, read with the same care: units in the heads, decimal commas, every problem with its place. */
export interface FurtherTable<Key extends string = string> {
	readonly file: string;
	readonly hash: string;
	/** The file as it was read; empty for rows typed into a cell. */
	readonly sources: readonly Source[];
	readonly rows: readonly FurtherRow<Key>[];
	/** The numbers that numbered columns ("sieve # mass") occur with, in rising order. */
	numbersOf(...keys: readonly Key[]): readonly number[];
	/** The last digit that a balance seems to have shown, g, from the masses in the columns that it filled. */
	balanceStep(...keys: readonly Key[]): number;
	/** Remarks of the reader: rows skipped, columns not known. */
	readonly remarks: readonly string[];
	/** What could not be read. The rest of the table is there all the same, so that everything that is wrong can be told at once. */
	readonly problems: readonly Problem[];
}

function rowOf<Key extends string>(
	table: ParsedTable<Key>,
	row: ParsedTable<Key>["rows"][number],
): FurtherRow<Key> {
	return {
		row: row.row,
		text: (key) => textOf(table, row, key),
		number: (key, number = 1) => {
			const cell = numberOf(table, row, key, number);
			return cell === null
				? { recorded: false }
				: {
						recorded: true,
						value: {
							value: cell.value,
							unit: cell.unit,
							kind: cell.kind,
							source: sourceOf(table, row, cell.header),
						},
					};
		},
		isEmpty: (key, number = 1) => isEmpty(table, row, key, number),
		place: (key, number = 1) => placeOf(table, row, key, number),
	};
}

/** A table of which no row could be read. */
function noRows<Key extends string>(
	file: string,
	hash: string,
): FurtherTable<Key> {
	return {
		file,
		hash,
		sources: [],
		rows: [],
		numbersOf: () => [],
		balanceStep: () => 0,
		remarks: [],
		problems: [],
	};
}

function parsed<Key extends string>(
	raw: RawTable,
	form: TableForm<Key>,
	sources: readonly Source[] = [],
): FurtherTable<Key> {
	const others = anotherTable(raw, form, `a table of the kind "${form.name}"`);
	if (others.length > 0)
		return {
			...noRows(raw.file, raw.hash),
			sources,
			problems: others,
		};
	const problems: Problem[] = [];
	const table = parseTable<Key>(raw, form, problems);
	const { headers, rows } = table;
	if (rows.length === 0 && problems.length === 0)
		problems.push(
			problem(
				"table-empty",
				{ file: raw.file, sheet: raw.sheet },
				"heads of columns and nothing below them",
				"a row for each entry",
				"Fill in what was read.",
			),
		);
	return {
		file: raw.file,
		hash: raw.hash,
		sources,
		rows: rows.map((row) => rowOf(table, row)),
		numbersOf: (...keys) => numbersOf(table, ...keys),
		balanceStep: (...keys) => readabilityOf(table, (key) => keys.includes(key)),
		remarks: [
			...raw.remarks,
			...(raw.emptyRows > 0
				? [
						`${raw.sheet}: ${raw.emptyRows} empty row${raw.emptyRows === 1 ? "" : "s"} between the others skipped.`,
					]
				: []),
			...headers.unknown.map(
				(u) =>
					`${raw.sheet}: the column "${u.header}" is not known and was not used${u.perhaps === "" ? "" : `; did you mean "${u.perhaps}"?`}.`,
			),
		],
		problems,
	};
}

function unreadable<Key extends string>(
	path: string,
	form: TableForm<Key>,
	found: string,
): FurtherTable<Key> {
	return {
		...noRows(basename(path), ""),
		problems: [
			problem(
				"file-unreadable",
				{ file: basename(path) },
				found,
				`a .csv file with a column "${form.key}"`,
				"Look at the path and the spelling; a relative path starts from the notebook's folder. Save a sheet of a spreadsheet as .csv.",
			),
		],
	};
}

/** Reads a .csv file (comma, semicolon or tab) in a form of its own. Never throws: what is wrong stands in `problems`. */
export function furtherTable<Key extends string>(
	path: string,
	form: TableForm<Key>,
): FurtherTable<Key> {
	requirePath(path);
	if (!existsSync(path)) return unreadable(path, form, `no file at ${path}`);
	if (statSync(path).isDirectory())
		return unreadable(path, form, `a folder at ${path}`);
	if (!/\.(csv|tsv|txt)$/i.test(path))
		return unreadable(path, form, `a file named ${basename(path)}`);
	const content = readFileSync(path);
	const source = { file: basename(path), hash: contentHash(content), content };
	return parsed(
		readCsv(content, keyHeads(form), {
			file: source.file,
			hash: source.hash,
			sheet: form.name,
		}),
		form,
		[source],
	);
}

/** The same of rows typed into a cell. */
export function furtherTableOfRows<Key extends string>(
	rows: readonly TypedRow[],
	form: TableForm<Key>,
): FurtherTable<Key> {
	return parsed(tableOf(rows, form.name, keyHeads(form)), form);
}
