import { createRequire } from "node:module";
import type { CellObject, WorkBook, WorkSheet } from "xlsx";
import { type Problem, problem } from "../quantity";
import { type SheetName, sheetNames, sheets } from "./columns";
import { type RawCell, type RawTable, tableOfGrid, tidy } from "./raw-table";
import { keyHeads } from "./table-form";

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

function cellOf(xlsx: Xlsx, cell: CellObject, date1904: boolean): RawCell {
	if (cell.t === "b") return cell.v ? "yes" : "no";
	if (cell.t === "e") return cell.w ?? "#ERROR";
	if (cell.t === "n" && typeof cell.v === "number")
		return cell.z && xlsx.SSF.is_date(String(cell.z))
			? dateText(xlsx, cell.v, date1904)
			: cell.v;
	return tidy(String(cell.v ?? ""));
}

function gridOf(
	xlsx: Xlsx,
	sheet: WorkSheet,
	date1904: boolean,
	onFormula: (row: number, column: number, formula: string) => void,
): RawCell[][] {
	if (!sheet["!ref"]) return [];
	const range = xlsx.utils.decode_range(sheet["!ref"]);
	const dense = sheet["!data"] ?? [];
	const grid: RawCell[][] = [];
	for (let r = 0; r <= range.e.r; r++) {
		const row: RawCell[] = [];
		for (let c = 0; c <= range.e.c; c++) {
			const cell = dense[r]?.[c];
			if (cell?.f !== undefined && cell.v === undefined)
				onFormula(r, c, cell.f);
			row.push(cell === undefined ? "" : cellOf(xlsx, cell, date1904));
		}
		grid.push(row);
	}
	return grid;
}

/** Which sheet of the workbook holds which table: by name, in any case; the first sheet holds the flasks where none has that name. */
function sheetFor(book: WorkBook, name: SheetName): string {
	const found = book.SheetNames.find((s) => s.trim().toLowerCase() === name);
	if (found !== undefined) return found;
	const first = book.SheetNames[0] ?? "";
	const taken = sheetNames.includes(first.trim().toLowerCase() as SheetName);
	return name === "flasks" && !taken ? first : "";
}

/** Reads the tables of a workbook: numbers, dates as text, the stored values of formulas. The library for it is loaded here, and only when a workbook is read. */
export function readXlsx(
	bytes: Uint8Array,
	about: Pick<RawTable, "file" | "hash">,
): { tables: RawTable[]; problems: Problem[] } {
	const xlsx = createRequire(__filename)("xlsx") as Xlsx;
	const book = xlsx.read(bytes, { type: "buffer", cellNF: true, dense: true });
	const date1904 = book.Workbook?.WBProps?.date1904 === true;
	const tables: RawTable[] = [];
	const problems: Problem[] = [];
	const used = new Set<string>();
	for (const name of sheetNames) {
		const title = sheetFor(book, name);
		if (title === "") continue;
		used.add(title);
		const grid = gridOf(xlsx, book.Sheets[title], date1904, (r, c, formula) =>
			problems.push(
				problem(
					"formula-without-value",
					{
						file: about.file,
						sheet: name,
						row: r + 1,
						column: xlsx.utils.encode_col(c),
					},
					`the formula "=${formula}" without a stored result`,
					"a value",
					"Open the file in a spreadsheet, let it calculate and save it, or type the value.",
				),
			),
		);
		tables.push(
			tableOfGrid(grid, keyHeads(sheets[name]), {
				...about,
				sheet: name,
				headsByRow: false,
				commaLikely: false,
				remarks: [],
			}),
		);
	}
	const others = book.SheetNames.filter((s) => !used.has(s));
	if (others.length > 0 && tables.length > 0)
		tables[0] = {
			...tables[0],
			remarks: [
				...tables[0].remarks,
				`${about.file}: sheets that are none of ${sheetNames.join(", ")} were not read: ${others.join(", ")}.`,
			],
		};
	return { tables, problems };
}
