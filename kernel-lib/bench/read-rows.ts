import { contentHash, type Problem, problem } from "../quantity";
import { type SheetName, sheetNames, sheets } from "./columns";
import { type RawCell, type RawTable, tableOfGrid, tidy } from "./raw-table";

/** What may stand in a cell of a row typed into a notebook. */
export type TypedCell = string | number | boolean | Date | null;

/** A row typed into a notebook: heads of columns, as in a sheet, and what stands below them. */
export type TypedRow = Readonly<Record<string, TypedCell>>;

/** The four tables as lists of rows. */
export interface TypedRows {
	readonly flasks: readonly TypedRow[];
	readonly solutions: readonly TypedRow[];
	readonly deviations?: readonly TypedRow[];
	readonly glassware?: readonly TypedRow[];
}

export const typedIn = "typed in";

function cellOf(cell: TypedCell | undefined): RawCell {
	if (cell === null || cell === undefined) return "";
	if (typeof cell === "number") return cell;
	if (typeof cell === "boolean") return cell ? "yes" : "no";
	if (cell instanceof Date)
		return Number.isFinite(cell.getTime())
			? cell.toISOString()
			: "a date that is none";
	return tidy(cell);
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

/** A table of rows typed in; they count as in a sheet with the heads in row 1. */
function tableOf(rows: readonly TypedRow[], sheet: SheetName): RawTable {
	const headers = headersOf(rows);
	const grid: RawCell[][] = [
		headers,
		...rows.map((row) => headers.map((h) => cellOf(row[h]))),
	];
	return tableOfGrid(grid, sheets[sheet].key, {
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
		if (list.length > 0) tables.push(tableOf(list, name));
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
