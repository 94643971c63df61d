import { createRequire } from "node:module";
import type { CellObject, WorkBook, WorkSheet } from "xlsx";
import { type Problem, problem } from "../quantity";
import { type SheetName, sheetNames, sheets } from "./columns";
import { readHeaders } from "./headers";
import { type RawCell, type RawTable, tableOfGrid, tidy } from "./raw-table";
import { keyHeads } from "./table-form";
import { tooMuchInWorkbook } from "./workbook-size";

type Xlsx = typeof import("xlsx");

const two = (n: number): string => String(n).padStart(2, "0");

/** A spreadsheet's day number as text, without passing through a time zone. */
function dateText(xlsx: Xlsx, day: number, date1904: boolean): string {
	const d = xlsx.SSF.parse_date_code(day, { date1904 }) as {
		y: number;
		m: number;
		d: number;
		H: number;
		M: number;
		S: number;
	};
	const date = `${d.y}-${two(d.m)}-${two(d.d)}`;
	return d.H + d.M + d.S === 0
		? date
		: `${date} ${two(d.H)}:${two(d.M)}:${two(Math.round(d.S))}`;
}

/** Digits that a spreadsheet keeps of a number (from memory). */
const digitsKept = 15;

function numberOf(
	xlsx: Xlsx,
	value: number,
	format: string,
	date1904: boolean,
): RawCell {
	if (xlsx.SSF.is_date(format)) return dateText(xlsx, value, date1904);
	// What stands in the cell as 4.5 % is kept as 0.045.
	return /%/.test(format.replace(/"[^"]*"|\\./g, ""))
		? `${Number((100 * value).toPrecision(digitsKept))} %`
		: value;
}

function cellOf(xlsx: Xlsx, cell: CellObject, date1904: boolean): RawCell {
	if (cell.t === "b") return cell.v ? "yes" : "no";
	if (cell.t === "e") return cell.w ?? "#ERROR";
	if (cell.t === "n" && typeof cell.v === "number")
		return numberOf(xlsx, cell.v, String(cell.z ?? ""), date1904);
	return tidy(String(cell.v ?? ""));
}

function gridOf(
	xlsx: Xlsx,
	sheet: WorkSheet,
	date1904: boolean,
	onFormula: (row: number, column: number, formula: string) => void,
): RawCell[][] {
	// The cells that are there; a range that the file claims may be anything.
	const dense = sheet["!data"] ?? [];
	return Array.from({ length: dense.length }, (_, r) =>
		Array.from({ length: dense[r]?.length ?? 0 }, (_, c): RawCell => {
			const cell = dense[r][c];
			if (cell?.f !== undefined && cell.v === undefined)
				onFormula(r, c, cell.f);
			return cell === undefined ? "" : cellOf(xlsx, cell, date1904);
		}),
	);
}

/** Rows and columns that a table may have. Our decisions. */
export const mostRows = 20_000;
export const mostColumns = 1_000;
/** Letters that a spreadsheet's own cell may hold (the limit of the common programs, from memory). */
const mostLetters = 32_767;

/** What in a sheet is more than a bench sheet holds; empty where nothing is. */
function crowdedText(sheet: WorkSheet, name: string): string[] {
	const rows = sheet["!data"] ?? [];
	const widest = rows.reduce((most, r) => Math.max(most, r?.length ?? 0), 0);
	const longest = rows.some((r) =>
		r?.some((c) => typeof c?.v === "string" && c.v.length > mostLetters),
	);
	return [
		...(rows.length > mostRows
			? [`more than ${mostRows} rows in the sheet "${name}"`]
			: []),
		...(widest > mostColumns
			? [`${widest} columns in the sheet "${name}"`]
			: []),
		...(longest
			? [`a cell with more than ${mostLetters} letters in the sheet "${name}"`]
			: []),
	];
}

function tooLarge({ file }: Pick<RawTable, "file">, found: string): Problem {
	return problem(
		"workbook-too-large",
		{ file },
		found,
		`a bench sheet: at most ${mostRows} rows and ${mostColumns} columns`,
		"Copy the tables alone into a new workbook, or save them as .csv.",
	);
}

type Grids = ReadonlyMap<string, readonly (readonly RawCell[])[]>;

function tableIn(
	grids: Grids,
	title: string,
	name: SheetName,
	about: Pick<RawTable, "file" | "hash">,
): RawTable {
	return tableOfGrid(grids.get(title) ?? [], keyHeads(sheets[name]), {
		...about,
		sheet: name,
		headsByRow: false,
		commaLikely: false,
		remarks: [],
	});
}

/** So many of its columns make a sheet without a name of ours one of the tables. A decision of ours. */
const enoughColumns = 3;

/** The table whose columns a sheet has, of those that no sheet is named for: that of most columns, its names among them. */
function takenFor(
	grids: Grids,
	title: string,
	free: readonly SheetName[],
	about: Pick<RawTable, "file" | "hash">,
): readonly SheetName[] {
	const counts = free.map((name) => ({
		name,
		keys: readHeaders(tableIn(grids, title, name, about), name).matches.map(
			(m) => m.key,
		),
	}));
	return counts
		.filter(
			({ name, keys }) =>
				keys.length >= enoughColumns && keys.includes(sheets[name].key),
		)
		.sort((a, b) => b.keys.length - a.keys.length)
		.slice(0, 1)
		.map(({ name }) => name);
}

/** Which sheet of the workbook holds which table: by name, in any case; else by its columns, where it is not hidden; the first sheet holds the flasks where nothing else does. */
function placesOf(
	titles: readonly string[],
	hidden: ReadonlySet<string>,
	grids: Grids,
	about: Pick<RawTable, "file" | "hash">,
): { places: ReadonlyMap<SheetName, string>; byColumns: readonly string[] } {
	const places = new Map<SheetName, string>();
	for (const name of sheetNames) {
		const named = titles.find((t) => t.trim().toLowerCase() === name);
		if (named !== undefined) places.set(name, named);
	}
	const byColumns: string[] = [];
	const isFree = (title: string): boolean =>
		![...places.values()].includes(title);
	const inSight = titles.filter((title) => !hidden.has(title));
	for (const title of inSight.filter(isFree)) {
		const free = sheetNames.filter((n) => !places.has(n));
		for (const name of takenFor(grids, title, free, about)) {
			places.set(name, title);
			byColumns.push(`"${title}" as ${name}`);
		}
	}
	const [first] = inSight;
	if (!places.has("flasks") && first !== undefined && isFree(first))
		places.set("flasks", first);
	return { places, byColumns };
}

function remarksOf(
	file: string,
	byColumns: readonly string[],
	hidden: readonly string[],
	unread: readonly string[],
): string[] {
	return [
		...(hidden.length > 0
			? [
					`${file}: hidden sheets were read for their names: ${hidden.join(", ")}.`,
				]
			: []),
		...(byColumns.length > 0
			? [
					`${file}: sheets without one of the names ${sheetNames.join(", ")} were taken by their columns: ${byColumns.join(", ")}.`,
				]
			: []),
		...(unread.length > 0
			? [
					`${file}: sheets that were taken for none of ${sheetNames.join(", ")} were not read: ${unread.join(", ")}.`,
				]
			: []),
	];
}

/** Cells of several rows that were merged: what stands there is kept in the first row alone, and the others look empty. A title above the headers, or a header that reaches into the row of units, takes nothing away. */
function mergedProblems(
	xlsx: Xlsx,
	sheet: WorkSheet,
	title: string,
	{ file, headerRow }: Pick<RawTable, "file" | "headerRow">,
): Problem[] {
	const rows = sheet["!data"] ?? [];
	return (sheet["!merges"] ?? [])
		.filter(
			({ s, e }) =>
				e.r > s.r && s.r >= headerRow && rows[s.r]?.[s.c]?.v !== undefined,
		)
		.map((range) =>
			problem(
				"merged-cells",
				{
					file,
					sheet: title,
					row: range.s.r + 1,
					column: xlsx.utils.encode_col(range.s.c),
				},
				`the merged cells ${xlsx.utils.encode_range(range)}, whose value a file keeps for their first row alone`,
				"a value in the cell of every row that it holds for",
				"Take the merging off and write the value into each row, or leave those cells empty that have none.",
			),
		);
}

/** Titles of sheets that the spreadsheet does not show. */
function hiddenIn(book: WorkBook): ReadonlySet<string> {
	return new Set(
		book.SheetNames.filter(
			(_, i) => (book.Workbook?.Sheets?.[i]?.Hidden ?? 0) !== 0,
		),
	);
}

/** Reads the tables of a workbook: numbers, dates as text, the stored values of formulas. The library for it is loaded here, and only when a workbook is read. */
export function readXlsx(
	bytes: Uint8Array,
	about: Pick<RawTable, "file" | "hash">,
): { tables: RawTable[]; problems: Problem[] } {
	const tooMuch = tooMuchInWorkbook(bytes);
	if (tooMuch !== "")
		return { tables: [], problems: [tooLarge(about, tooMuch)] };
	const xlsx = createRequire(__filename)("xlsx") as Xlsx;
	const book = xlsx.read(bytes, {
		type: "buffer",
		cellNF: true,
		dense: true,
		sheetRows: mostRows + 1,
	});
	const titles = book.SheetNames;
	const crowded = titles.flatMap((t) => crowdedText(book.Sheets[t], t));
	if (crowded.length > 0)
		return { tables: [], problems: crowded.map((c) => tooLarge(about, c)) };
	const date1904 = book.Workbook?.WBProps?.date1904 === true;
	const formulas = new Map<string, Problem[]>();
	const grids: Grids = new Map(
		titles.map((title) => {
			const own: Problem[] = [];
			formulas.set(title, own);
			const onFormula = (r: number, c: number, formula: string): void => {
				own.push(
					problem(
						"formula-without-value",
						{
							file: about.file,
							sheet: title,
							row: r + 1,
							column: xlsx.utils.encode_col(c),
						},
						`the formula "=${formula}" without a stored result`,
						"a value",
						"Open the file in a spreadsheet, let it calculate and save it, or type the value.",
					),
				);
			};
			return [title, gridOf(xlsx, book.Sheets[title], date1904, onFormula)];
		}),
	);
	const hidden = hiddenIn(book);
	const { places, byColumns } = placesOf(titles, hidden, grids, about);
	const used = [...places.values()];
	const unread = titles.filter((t) => !used.includes(t));
	const tables = sheetNames.flatMap((name) => {
		const title = places.get(name);
		return title === undefined ? [] : [tableIn(grids, title, name, about)];
	});
	if (tables.length > 0)
		tables[0] = {
			...tables[0],
			remarks: [
				...tables[0].remarks,
				...remarksOf(
					about.file,
					byColumns,
					used.filter((title) => hidden.has(title)),
					unread.map((title) =>
						hidden.has(title) ? `${title} (hidden)` : title,
					),
				),
			],
		};
	return {
		tables,
		problems: [...places].flatMap(([name, title]) => [
			...(formulas.get(title) ?? []),
			...mergedProblems(
				xlsx,
				book.Sheets[title],
				title,
				tableIn(grids, title, name, about),
			),
		]),
	};
}
