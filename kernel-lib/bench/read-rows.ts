import {
	contentHash,
	foundText,
	type OptionRule,
	type Problem,
	problem,
	type ResultKind,
	refuse,
	requireArgument,
	requireResults,
} from "../quantity";
import { type SheetName, sheetNames, sheets } from "./columns";
import { type RawCell, type RawTable, tableOfGrid, tidy } from "./raw-table";
import { keyHeads } from "./table-form";

/** What may stand in a cell of a row typed into a notebook. */
export type TypedCell = string | number | boolean | Date | null;

/** A row typed into a notebook: heads of columns, as in a sheet, and what stands below them. */
export type TypedRow = Readonly<Record<string, TypedCell>>;

/** The tables as lists of rows. */
export interface TypedRows {
	/** Not needed, as the solutions, where there are firings and nothing else. */
	readonly flasks?: readonly TypedRow[];
	readonly solutions?: readonly TypedRow[];
	readonly deviations?: readonly TypedRow[];
	readonly glassware?: readonly TypedRow[];
	readonly activation?: readonly TypedRow[];
	readonly calibration?: readonly TypedRow[];
}

export const typedIn = "typed in";

/** @param head of the cell's column */
function cellOf(cell: TypedCell | undefined, head: string): RawCell {
	if (cell === null || cell === undefined) return "";
	if (typeof cell === "number") return cell;
	if (typeof cell === "boolean") return cell ? "yes" : "no";
	if (cell instanceof Date)
		return Number.isFinite(cell.getTime())
			? cell.toISOString()
			: "an invalid date";
	if (typeof cell === "string") return tidy(cell);
	return refuse(
		"cell-wrong",
		`a row typed in, "${head}"`,
		foundText(cell),
		"a text, a number, true or false, a date or null",
		"Write what would stand in the cell of a sheet.",
	);
}

/** Heads of all rows in one order that agrees with the order in each row: a head not seen yet goes behind the one before it in its own row. */
function headersOf(rows: readonly TypedRow[]): string[] {
	const order: string[] = [];
	const seen = new Set<string>();
	for (const row of rows) {
		let at = -1;
		for (const head of Object.keys(row)) {
			if (seen.has(head)) at = order.indexOf(head);
			else {
				at += 1;
				order.splice(at, 0, head);
				seen.add(head);
			}
		}
	}
	return order;
}

/** Heads of what happens to the liquid, whose order counts. */
const happens = /^\s*(dose|liquid added|made up to|withdrawn)\s*\d*\s*\(/i;

/** Rows whose events stand in another order than in the rows before: the order of the columns could not be that of all of them. */
function checkOrder(
	rows: readonly TypedRow[],
	headers: readonly string[],
	problems: Problem[],
): void {
	rows.forEach((row, i) => {
		let before = -1;
		for (const [head, cell] of Object.entries(row)) {
			if (!happens.test(head) || cellOf(cell, head) === "") continue;
			const at = headers.indexOf(head);
			if (at < before) {
				problems.push(
					problem(
						"order-of-columns",
						{ file: typedIn, sheet: "flasks", row: i + 2, column: head },
						`"${head}" behind "${headers[before]}", while other rows have them the other way round`,
						"one order of columns for all rows: doses, liquids, making up and withdrawals happen from left to right",
						"Write the columns in the same order in every row; number doses and withdrawals so that each stands where it happened.",
					),
				);
				break;
			}
			before = at;
		}
	});
}

const rowKind: ResultKind = {
	parts: [],
	expected:
		'a row in braces, heads of columns with what stands below them, such as { flask: "1", treatment: "control" }',
};

const rowsByTable: OptionRule = {
	expected:
		"lists of rows by table, such as { flasks: [ ... ], solutions: [ ... ] }",
	accepts: (value) =>
		typeof value === "object" && value !== null && !Array.isArray(value),
};

/** A table of rows typed in; they count as in a sheet with the heads in row 1. */
export function tableOf(
	rows: readonly TypedRow[],
	sheet: string,
	keys: readonly string[],
): RawTable {
	requireResults(rows, rowKind, `rows of ${sheet}`);
	const headers = headersOf(rows);
	const grid: RawCell[][] = [
		headers,
		...rows.map((row) => headers.map((h) => cellOf(row[h], h))),
	];
	return tableOfGrid(grid, keys, {
		file: typedIn,
		hash: contentHash(JSON.stringify(grid)),
		sheet,
		headsByRow: true,
		commaLikely: false,
		remarks: [],
	});
}

/** The tables of rows typed in. */
export function readRows(rows: TypedRows): {
	tables: RawTable[];
	problems: Problem[];
} {
	requireArgument(rows, rowsByTable, "trialFromRows");
	const tables: RawTable[] = [];
	const problems: Problem[] = [];
	for (const name of sheetNames) {
		const list = (rows as Partial<TypedRows>)[name];
		if (list === undefined) continue;
		if (!Array.isArray(list)) {
			problems.push(
				problem(
					"rows-not-a-list",
					{ file: typedIn, sheet: name },
					`a ${typeof list}`,
					"a list of rows",
					`Write ${name}: [ { ... }, { ... } ].`,
				),
			);
			continue;
		}
		if (list.length === 0) continue;
		const made = tableOf(list, name, keyHeads(sheets[name]));
		tables.push(made);
		if (name === "flasks") checkOrder(list, made.headers, problems);
	}
	for (const name of Object.keys(rows))
		if (!sheetNames.includes(name as SheetName))
			problems.push(
				problem(
					"table-unknown",
					{ file: typedIn, sheet: name },
					`a table "${name}"`,
					`one of ${sheetNames.join(", ")}`,
					"Name the table as one of these.",
				),
			);
	return { tables, problems };
}
