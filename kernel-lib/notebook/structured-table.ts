import {
	cellText,
	escapeHtml,
	isTyped,
	type LineIds,
	type Quantity,
	type Table,
	type TableCell,
} from "../quantity";
import { type ColumnLook, columnLooks, roomStyle } from "./column-look";
import type { PackedFile } from "./large/packed-file";
import { type ShownPart, shownPart } from "./large/shown-part";

/** Type under which a table travels in a notebook, so that pages need not read HTML. */
export const tableMimeType = "application/vnd.charledger.table+json";

/** A cell: its text as shown, and the number behind it where there is one. */
export type StructuredCell =
	| { readonly is: "text"; readonly text: string }
	| { readonly is: "number"; readonly text: string; readonly value: number }
	| {
			readonly is: "value" | "at least" | "at most";
			readonly text: string;
			readonly value: number;
			readonly unit: string;
			readonly standardUncertainty: number;
			/** Id of its line in the ledger, where the table is reported. */
			readonly line?: string;
	  };

export interface StructuredTable {
	readonly formatVersion: 1;
	readonly title: string;
	readonly columns: readonly string[];
	readonly rows: readonly (readonly StructuredCell[])[];
	readonly notes: readonly string[];
	/** Of a table with too many rows to show: what they hold in short, and all of them as a compressed CSV file; `rows` are those at the extremes. */
	readonly large?: {
		readonly summary: StructuredTable;
		readonly whole: PackedFile;
	};
}

function isTexts(value: unknown): value is readonly string[] {
	return Array.isArray(value) && value.every((v) => typeof v === "string");
}

export function isTable(value: unknown): value is Table {
	const t = value as Partial<Table> | null;
	return (
		typeof t === "object" &&
		t !== null &&
		typeof t.title === "string" &&
		isTexts(t.columns) &&
		isTexts(t.notes) &&
		Array.isArray(t.rows) &&
		t.rows.every(Array.isArray)
	);
}

/** The table by which a value is shown: a table itself, or the one that a result carries. */
export function tableOf(value: unknown): Table | null {
	if (isTable(value)) return value;
	if (typeof value !== "object" || value === null) return null;
	const { table } = value as { readonly table?: unknown };
	return isTable(table) ? table : null;
}

/** Values with a line in the ledger of the result that the table belongs to. */
type Lines = Pick<LineIds, "get">;

function quantityCell(
	is: "value" | "at least" | "at most",
	quantity: Quantity,
	text: string,
	lines: Lines,
): StructuredCell {
	const line = lines.get(quantity);
	return {
		is,
		text,
		value: quantity.value,
		unit: quantity.unit,
		standardUncertainty: quantity.standardUncertainty,
		...(line === undefined ? {} : { line }),
	};
}

function structuredCell(
	cell: TableCell,
	heading: string,
	lines: Lines,
): StructuredCell {
	const text = cellText(cell, heading);
	if (typeof cell === "string") return { is: "text", text };
	if (typeof cell === "number")
		return Number.isFinite(cell)
			? { is: "number", text, value: cell }
			: { is: "text", text };
	if (isTyped(cell)) return { is: "number", text, value: cell.value };
	return "is" in cell
		? quantityCell(cell.is, cell.quantity, text, lines)
		: quantityCell("value", cell, text, lines);
}

function structuredRows(table: Table, lines: Lines): StructuredTable {
	return {
		formatVersion: 1,
		title: table.title,
		columns: table.columns,
		rows: table.rows.map((row) =>
			row.map((cell, i) => structuredCell(cell, table.columns[i], lines)),
		),
		notes: table.notes,
	};
}

const noLines: Lines = new Map();

/** What is shown of a table, with every number beside its text, as plain JSON. */
export function structuredPart(
	part: ShownPart,
	lines: Lines = noLines,
): StructuredTable {
	return part.is === "whole"
		? structuredRows(part.table, lines)
		: {
				...structuredRows(part.table, lines),
				large: {
					summary: structuredRows(part.summary, noLines),
					whole: part.whole,
				},
			};
}

/** The table with every number beside its text, as plain JSON; of a large one the part that is shown, and a file with all of it. */
export function structuredTable(
	table: Table,
	lines: Lines = noLines,
): StructuredTable {
	return structuredPart(shownPart(table), lines);
}

function cellHtml(cell: StructuredCell, look: ColumnLook, row: number): string {
	const room = roomStyle(look, row, "0.5em");
	return `<td style="text-align:${look.side}${room === "" ? "" : `;${room}`}">${escapeHtml(cell.text)}</td>`;
}

/** The table for front ends of notebooks, whose own styles would set every cell to the right. */
export function notebookTableHtml(table: StructuredTable): string {
	const caption =
		table.title === ""
			? ""
			: `<caption style="text-align:left">${escapeHtml(table.title)}</caption>`;
	const looks = columnLooks(table);
	const head = table.columns
		.map(
			(c, i) => `<th style="text-align:${looks[i].side}">${escapeHtml(c)}</th>`,
		)
		.join("");
	const body = table.rows
		.map(
			(row, r) =>
				`<tr>${row.map((cell, i) => cellHtml(cell, looks[i], r)).join("")}</tr>`,
		)
		.join("");
	const notes = table.notes.map((n) => `<p>${escapeHtml(n)}</p>`).join("");
	const summary =
		table.large === undefined ? "" : notebookTableHtml(table.large.summary);
	return `${summary}<table style="font-variant-numeric:tabular-nums">${caption}<thead><tr>${head}</tr></thead><tbody>${body}</tbody></table>${notes}`;
}
