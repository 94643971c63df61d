/** The sheets of a page: every cell as it was read, with an id of its own, so that a number can lead to it. */
import { tablesAsRead } from "../../bench";
import { escapeHtml, type LedgerRow } from "../../quantity";
import type { AttachedInput } from "../attach";
import { wholeRows } from "../large/limits";
import { cellId, rowId } from "./anchors";
import { framed, paperTables } from "./tables";

type Place = Pick<LedgerRow, "hash" | "sheet" | "row" | "column">;

export interface SheetRow {
	/** As the file counts it. */
	readonly row: number;
	readonly cells: readonly string[];
	/** Name of the flask and what was done to its char; "" where the sheet does not say. */
	readonly flask: string;
	readonly treatment: string;
}

/** One table of a file that the notebook carries. */
export interface PageSheet {
	/** Its number on the page, of which its ids are made. */
	readonly number: number;
	readonly file: string;
	readonly hash: string;
	readonly sheet: string;
	/** Whether its file holds other tables too. */
	readonly oneOfSeveral: boolean;
	readonly headers: readonly string[];
	readonly rows: readonly SheetRow[];
	readonly total: number;
}

/** Rows that a page shows of a sheet: all of them, or of a large one those that a table of the page speaks of. */
type Cited = (place: {
	readonly hash: string;
	readonly row: number;
	readonly flask: string;
}) => boolean;

/**
 * The tables of all files that a notebook carries.
 * @param headsOf heads of columns that the ledger names, by the hash of the file
 */
export function sheetsOf(
	inputs: readonly AttachedInput[],
	headsOf: ReadonlyMap<string, ReadonlySet<string>>,
	cited: Cited,
): readonly PageSheet[] {
	const tables = inputs.flatMap(({ file, hash, base64 }) => {
		const content = Buffer.from(base64, "base64");
		const heads = [...(headsOf.get(hash) ?? [])];
		const read = tablesAsRead(file, content, heads);
		return read.map((table) => ({
			file,
			hash,
			table,
			oneOfSeveral: read.length > 1,
		}));
	});
	return tables.map(({ file, hash, table, oneOfSeveral }, i) => {
		const { sheet, headers, flaskColumn, treatmentColumn } = table;
		const rows = table.rows.map(({ row, cells }) => ({
			row,
			cells: headers.map((_, c) => String(cells[c] ?? "")),
			flask: String(cells[flaskColumn] ?? ""),
			treatment: String(cells[treatmentColumn] ?? ""),
		}));
		return {
			number: i + 1,
			file,
			hash,
			sheet,
			oneOfSeveral,
			headers,
			rows:
				rows.length <= wholeRows
					? rows
					: rows
							.filter(({ row, flask }) => cited({ hash, row, flask }))
							.slice(0, wholeRows),
			total: rows.length,
		};
	});
}

const isFrom = (
	{ hash, sheet, oneOfSeveral }: PageSheet,
	line: Place,
): boolean => line.hash === hash && (!oneOfSeveral || line.sheet === sheet);

/** Whether a line of the ledger was read in a row. */
export const standsIn = (
	sheet: PageSheet,
	{ row }: SheetRow,
	line: Place,
): boolean => line.row === row && isFrom(sheet, line);

/** Where the cell that a line of the ledger was read from stands on the page; "" where it does not. */
export function cellAddress(sheets: readonly PageSheet[], line: Place): string {
	const { row, column } = line;
	const own = sheets.find((sheet) => isFrom(sheet, line));
	const at = own?.headers.indexOf(column) ?? -1;
	return own === undefined || at < 0 || !own.rows.some((r) => r.row === row)
		? ""
		: `#${cellId(own.number, row, at)}`;
}

const isNumber = (text: string): boolean => /^[-−+]?\d+([.,]\d+)?$/.test(text);

function cellHtml(id: string, text: string): string {
	if (text === "") return "<td></td>";
	return `<td${id === "" ? "" : ` id="${id}"`}${isNumber(text) ? ' class="number"' : ""}>${escapeHtml(text)}</td>`;
}

/** Address of what is said of the flask of a row, "" where nothing is. */
export type AddressOfRow = (row: SheetRow) => string;

function sheetMarkup(page: PageSheet, addressOf: AddressOfRow): string {
	const { number, file, sheet, oneOfSeveral, headers, rows, total } = page;
	const name = oneOfSeveral ? `${file}, sheet ${sheet}` : file;
	const named = (r: SheetRow): string => {
		const address = addressOf(r);
		return address === ""
			? ""
			: ` <a href="${address}">flask ${escapeHtml(r.flask)}</a>`;
	};
	// On paper every part begins with the flask, too.
	const paperHead = ({ row, flask }: SheetRow): string =>
		flask === "" ? String(row) : `${row} ${flask}`;
	const head = [
		'<th scope="col">row</th>',
		...headers.map((h) => `<th scope="col">${escapeHtml(h)}</th>`),
	];
	const screen = rows
		.map(
			(r) =>
				`<tr><th scope="row" id="${rowId(number, r.row)}">${r.row}${named(r)}</th>${r.cells.map((text, c) => cellHtml(cellId(number, r.row, c), text)).join("")}</tr>`,
		)
		.join("");
	const table = `<table class="sheet"><thead><tr>${head.join("")}</tr></thead><tbody>${screen}</tbody></table>`;
	const onPaper = paperTables(
		"",
		head,
		rows.map((r) => [
			`<th scope="row">${escapeHtml(paperHead(r))}</th>`,
			...r.cells.map((t) => cellHtml("", t)),
		]),
		[
			["row", ...rows.map(paperHead)],
			...headers.map((h, c) => [h, ...rows.map((r) => r.cells[c])]),
		],
	);
	const part =
		rows.length < total
			? `<p class="note">Of ${total} rows the ${rows.length} are shown that this page speaks of. The file below holds all of them.</p>`
			: "";
	return `<h3 id="sheet-${number}">${escapeHtml(name)}</h3>${framed(name, table, headers.length + 1, rows.length, onPaper)}${part}`;
}

/** All sheets of a page, cell by cell. */
export function sheetsSection(
	sheets: readonly PageSheet[],
	addressOf: AddressOfRow,
): string {
	const filled = sheets.filter(({ headers }) => headers.length > 0);
	return filled.length === 0
		? ""
		: `<h2 id="sheets">Sheets</h2><p>Every cell as it was read, under the row numbers of its file.<span class="screen-only"> A link from a number ends at its cell, which is then marked.</span></p>${filled.map((s) => sheetMarkup(s, addressOf)).join("")}`;
}
