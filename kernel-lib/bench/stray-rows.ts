/** Rows of real sheets that are no rows of the table: units under the headers, a note, totals; and a 0 where nothing was done. */
import { type Problem, problem, readUnit } from "../quantity";
import type { Column } from "./column";
import type { SheetName } from "./columns";
import { knownHead } from "./headers";
import type { RawCell, RawRow, RawTable } from "./raw-table";
import { formOf, type TableForm } from "./table-form";

/** A table without such rows, and what has to be asked. */
export interface Settled {
	readonly table: RawTable;
	readonly problems: readonly Problem[];
}

/** The column that each header stands for; none for one that is carried along. */
type Heads = readonly (
	| { readonly key: string; readonly number: number; readonly column: Column }
	| undefined
)[];

const isDash = (cell: RawCell): boolean => /^[-–—]$/.test(String(cell));
const unitsWord = /^(?:\(?units?\)?:?|einheit(?:en)?|unités?|unidad(?:es)?)$/i;

/** The unit of the column's kinds that a cell names, in the library's spelling; "" for none. */
function unitIn(cell: RawCell, column: Column | undefined): string {
	if (column?.holds.is !== "number") return "";
	const written = String(cell).replace(/^[([]|[)\]]$/g, "");
	for (const kind of column.holds.kinds) {
		const unit = readUnit(kind, written);
		if (unit.ok) return unit.value;
	}
	return "";
}

/** True for a row that holds units of its columns and nothing else. */
function isRowOfUnits({ cells }: RawRow, heads: Heads): boolean {
	const filled = cells.flatMap((cell, i) =>
		cell === "" || isDash(cell) || unitsWord.test(String(cell)) ? [] : [i],
	);
	return (
		filled.length > 0 &&
		filled.every((i) => unitIn(cells[i], heads[i]?.column) !== "")
	);
}

const inBrackets = /\s*[([]([^()[\]]*)[)\]]$/;

/** A header with the unit that stands under it; one that names another unit keeps its own, and both are asked about. */
function headWithUnit(
	table: RawTable,
	row: RawRow,
	heads: Heads,
	problems: Problem[],
): readonly string[] {
	return table.headers.map((header, i) => {
		const unit = unitIn(row.cells[i] ?? "", heads[i]?.column);
		if (unit === "") return header;
		const own = inBrackets.exec(header)?.[1] ?? "";
		if (own === "") return `${header} (${unit})`;
		if (unitIn(own, heads[i]?.column) !== unit)
			problems.push(
				problem(
					"unit-twice",
					{
						file: table.file,
						sheet: table.sheet,
						row: row.row,
						column: header,
					},
					`"${row.cells[i]}" under a header that says "${own}"`,
					"one unit for a column",
					"Take the wrong one away.",
				),
			);
		return header;
	});
}

function withUnitsRow(
	table: RawTable,
	heads: Heads,
	problems: Problem[],
): RawTable {
	const [first, ...rows] = table.rows;
	if (first === undefined || !isRowOfUnits(first, heads)) return table;
	return {
		...table,
		headers: headWithUnit(table, first, heads, problems),
		rows,
		remarks: [
			...table.remarks,
			`${table.file}, ${table.sheet}: row ${first.row} holds the units of the columns and is read so.`,
		],
	};
}

const totals =
	/^(?:grand )?(?:totals?|sum|subtotal|means?|average|avg|median|std\.? ?dev\.?|sd|rsd|summe|gesamt|mittel(?:wert)?|durchschnitt|somme|moyenne|suma|media|promedio|somma)[.:]?$/i;

/** What a row is that is none of the table; "" for a row of it. */
function strayText(
	{ cells }: RawRow,
	{ key }: { readonly key: string },
	heads: Heads,
): "" | "note" | "totals" {
	const filled = cells.filter((cell) => cell !== "");
	const enough = heads.filter((h) => h !== undefined).length > 2;
	if (enough && filled.length === 1 && typeof filled[0] === "string")
		return "note";
	const name = cells[heads.findIndex((h) => h?.key === key)] ?? "";
	return totals.test(String(name)) ? "totals" : "";
}

function strayProblem(
	table: RawTable,
	{ row, cells }: RawRow,
	is: "note" | "totals",
	{ key }: { readonly key: string },
): Problem {
	const text = cells.find((cell) => cell !== "");
	const place = { file: table.file, sheet: table.sheet, row };
	return is === "note"
		? problem(
				"row-alone",
				place,
				`"${text}" and nothing else in its row`,
				"a row of the table, or no row",
				`Is this a note? If it is a note, put it into the column \`notes\` or take it out; if it is the name of a ${key}, fill its row.`,
			)
		: problem(
				"row-of-totals",
				place,
				`a row called "${text}"`,
				`rows of single ${key}s: totals and means are made here`,
				`Take the row out; if it is a ${key}, give it another name.`,
			);
}

/** A dose after the first that is 0 was not given. */
function withoutZeroDoses(table: RawTable, heads: Heads): RawTable {
	const later = heads.flatMap((h, i) =>
		h?.key === "dose #" && h.number > 1 ? [i] : [],
	);
	const isZero = (cell: RawCell | undefined): boolean =>
		cell === 0 || /^0(?:[.,]0*)?$/.test(String(cell ?? ""));
	const named = later.filter((i) => table.rows.some((r) => isZero(r.cells[i])));
	if (named.length === 0) return table;
	return {
		...table,
		rows: table.rows.map((r) => ({
			...r,
			cells: r.cells.map((cell, i) =>
				named.includes(i) && isZero(cell) ? "" : cell,
			),
		})),
		remarks: [
			...table.remarks,
			`${table.file}, ${table.sheet}: 0 in ${named.map((i) => `"${table.headers[i]}"`).join(", ")} is read as no such dose.`,
		],
	};
}

/**
 * Sets the rows of real sheets right that are no rows of the table. Units under the headers are read as such, a later dose of 0 as none, and both are said; a row with a lone text and a row of totals are asked about, each
 * in one sentence, and left out of the other checks. Rows typed in are as they are.
 */
export function settleRows(
	raw: RawTable,
	form: SheetName | TableForm,
): Settled {
	if (raw.headsByRow) return { table: raw, problems: [] };
	const problems: Problem[] = [];
	const heads = raw.headers.map((header) => knownHead(form, header));
	const { key } = formOf(form);
	const table = withoutZeroDoses(withUnitsRow(raw, heads, problems), heads);
	const rows = table.rows.filter((row) => {
		const is = strayText(row, { key }, heads);
		if (is !== "") problems.push(strayProblem(table, row, is, { key }));
		return is === "";
	});
	return { table: { ...table, rows }, problems };
}
