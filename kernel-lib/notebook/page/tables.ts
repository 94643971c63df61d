import {
	bareNumber,
	escapeHtml,
	type LedgerRow,
	plainNumber,
	roundedPair,
	significant,
} from "../../quantity";
import { attentionMark } from "../../words";
import { type ColumnLook, columnLooks, roomStyle } from "../column-look";
import { bytesOf, type PackedFile } from "../large/packed-file";
import type { StructuredCell, StructuredTable } from "../structured-table";
import { lineId } from "./anchors";
import { paperParts, paperWidth } from "./paper-parts";

/** A text of more letters is a sentence, which a column must not squeeze into a tower of words. */
const longText = 40;

/** Where the cells of a table lead to; "" for nowhere. */
export interface CellLinks {
	inTable(
		row: readonly StructuredCell[],
		columns: readonly string[],
		at: number,
	): string;
}

/** Heads of the columns that name flasks and what was done to their chars. */
export const flaskHead = "flask";
export const treatmentHead = "treatment";

function linked(text: string, address: string): string {
	return address === ""
		? escapeHtml(text)
		: `<a href="${address}">${escapeHtml(text)}</a>`;
}

function cellHtml(
	cell: StructuredCell,
	header: boolean,
	look: ColumnLook,
	row: number,
	inner: string,
): string {
	if (header) return `<th scope="row">${inner}</th>`;
	if (look.side === "left") {
		const looks = [
			...(cell.text.length > longText ? ["prose"] : []),
			...(cell.text.startsWith(attentionMark) ? ["attention"] : []),
		].join(" ");
		return `<td${looks === "" ? "" : ` class="${looks}"`}>${inner}</td>`;
	}
	const room = roomStyle(look, row, "1.4em");
	return `<td class="number"${room === "" ? "" : ` style="${room}"`}>${inner}</td>`;
}

/** Tables with more columns keep their cells wide and scroll; with more rows they scroll in a frame of limited height. */
const manyColumns = 9;
const manyRows = 30;

/** More columns than a sheet of paper can hold in a size that can be read: on paper such a table comes in parts. */
const tooManyForPaper = 16;

/** Columns that every part of a table on paper repeats. */
const keyColumns = 1;

/**
 * A table in parts, for paper alone; "" for one that fits.
 * @param head cells of the head, as HTML
 * @param rows cells of the rows, as HTML; without ids, since they stand on the screen too
 * @param texts of each column, which say how wide it is
 */
export function paperTables(
	caption: string,
	head: readonly string[],
	rows: readonly (readonly string[])[],
	texts: readonly (readonly string[])[],
): string {
	if (head.length <= tooManyForPaper) return "";
	return paperParts(texts.map(paperWidth), keyColumns)
		.map(
			(columns) =>
				`<table class="paper-only">${caption}<thead><tr>${columns.map((c) => head[c]).join("")}</tr></thead><tbody>${rows.map((row) => `<tr>${columns.map((c) => row[c]).join("")}</tr>`).join("")}</tbody></table>`,
		)
		.join("");
}

/**
 * A table in a frame of its own that scrolls on a narrow screen and can be reached by keyboard.
 * @param onPaper what stands on paper in its place; "" for the table itself
 */
export function framed(
	label: string,
	table: string,
	columns: number,
	rows: number,
	onPaper = "",
): string {
	const look = [
		"wide",
		...(columns > manyColumns ? ["many"] : []),
		...(rows > manyRows ? ["long"] : []),
		...(onPaper === "" ? [] : ["screen-only"]),
	].join(" ");
	return `<div class="${look}" role="group" tabindex="0" aria-label="${escapeHtml(label)}">${table}</div>${onPaper}`;
}

/** A structured table; with `rowHeaders` the first cell of each row names the row. */
export function tableMarkup(
	table: StructuredTable,
	label: string,
	rowHeaders = false,
	links?: CellLinks,
): string {
	const caption =
		table.title === "" ? "" : `<caption>${escapeHtml(table.title)}</caption>`;
	const looks = columnLooks(table);
	const head = table.columns.map((c, i) =>
		c === ""
			? "<td></td>"
			: `<th scope="col"${looks[i].side === "right" ? ' class="number"' : ""}>${escapeHtml(c)}</th>`,
	);
	const rows = table.rows.map((row, r) =>
		row.map((cell, i) =>
			cellHtml(
				cell,
				rowHeaders && i === 0,
				looks[i],
				r,
				linked(cell.text, links?.inTable(row, table.columns, i) ?? ""),
			),
		),
	);
	const body = rows.map((row) => `<tr>${row.join("")}</tr>`).join("");
	const onPaper = paperTables(
		caption,
		head,
		rows,
		table.columns.map((c, i) => [c, ...table.rows.map((r) => r[i].text)]),
	);
	const notes = table.notes
		.map((n) => `<p class="note">${escapeHtml(n)}</p>`)
		.join("");
	const summary =
		table.large === undefined
			? ""
			: tableMarkup(table.large.summary, label, true);
	return `${summary}${framed(table.title || label, `<table>${caption}<thead><tr>${head.join("")}</tr></thead><tbody>${body}</tbody></table>`, table.columns.length, table.rows.length, onPaper)}${notes}${insideMarkup(table)}`;
}

/** A large table's file, where the page has it too. */
function insideMarkup({ large }: StructuredTable): string {
	if (large === undefined || large.whole.inside.length === 0) return "";
	return `<p class="note">It is inside this page too: ${packedLink(large.whole)}</p>`;
}

/** A compressed file inside the page. */
export function packedLink(file: PackedFile): string {
	return downloadLink(
		file.name,
		"application/gzip",
		Buffer.from(bytesOf(file)).toString("base64"),
	);
}

export function downloadLink(
	name: string,
	type: string,
	base64: string,
): string {
	return `<a download="${escapeHtml(name)}" href="data:${type};base64,${base64}" class="screen-only">${escapeHtml(name)}</a><span class="paper-only">${escapeHtml(name)}</span>`;
}

function placeMarkup(row: LedgerRow, address: string): string {
	if (row.row === 0) return escapeHtml(row.source);
	const place = escapeHtml(
		`${row.file}${row.sheet === "" ? "" : `, sheet ${row.sheet}`}, row ${row.row}, column ${row.column}`,
	);
	return address === "" ? place : `<a href="${address}">${place}</a>`;
}

/** What a ledger leads to beside its own lines. */
export interface LedgerLinks {
	/** Address of the cell that a line was read from, "" for none. */
	cell(row: LedgerRow): string;
	restsOn(
		row: LedgerRow,
	): readonly { readonly address: string; readonly text: string }[];
}

/** Numbers of more digits than a reader can use, to five; ledger.csv has all of them. */
export function roundedNumbers(text: string): string {
	return text.replace(/\d+\.\d{5,}/g, (digits) =>
		significant(Number(digits), 5),
	);
}

function formulaMarkup({ formula, numbers }: LedgerRow): string {
	return numbers === ""
		? escapeHtml(formula)
		: `${escapeHtml(formula)}<br>= ${escapeHtml(roundedNumbers(numbers))}`;
}

/** The value of a line as it is shown, and its u: a number that was typed with all its digits. */
function valueAndU(r: LedgerRow): readonly [value: string, u: string] {
	if (r.standardUncertainty > 0)
		return roundedPair(r.value, r.standardUncertainty);
	const typed = r.row > 0 || r.inputs.length === 0;
	return typed ? [plainNumber(r.value), "exact"] : [bareNumber(r.value), ""];
}

/** The ledger, each line with links to the lines that it was made from, or to the cell that it was read from. */
export function ledgerMarkup(
	rows: readonly LedgerRow[],
	links: LedgerLinks,
): string {
	const known = new Map(rows.map((r) => [r.id, r]));
	const body = rows
		.map((r) => {
			const inputs = r.inputs
				.map((id) => known.get(id))
				.filter((x) => x !== undefined)
				.map((x) =>
					linked(x.symbol || x.meaning || x.id, `#${lineId(escapeHtml(x.id))}`),
				)
				.join(", ");
			const from = inputs === "" ? placeMarkup(r, links.cell(r)) : inputs;
			const rests = links
				.restsOn(r)
				.map(({ address, text }) => linked(text, address))
				.join(", ");
			const unit = r.unit === "1" ? "" : escapeHtml(r.unit);
			const [value, u] = valueAndU(r);
			return `<tr id="${lineId(escapeHtml(r.id))}"><th scope="row">${escapeHtml(r.symbol)}</th><td>${escapeHtml(r.meaning)}</td><td class="number">${value}</td><td class="number">${u}</td><td>${unit}</td><td>${formulaMarkup(r)}</td><td>${from}${rests === "" ? "" : `<br>rests on ${rests}`}</td></tr>`;
		})
		.join("");
	const head = ["symbol", "meaning", "value", "u", "unit", "formula", "from"]
		.map((c) => `<th scope="col">${c}</th>`)
		.join("");
	return framed(
		"Ledger",
		`<table class="ledger"><thead><tr>${head}</tr></thead><tbody>${body}</tbody></table>`,
		7,
		rows.length,
	);
}
