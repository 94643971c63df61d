import { foundText, refuse, requireList, requireText } from "../problem";
import type { Measured } from "./bound";
import { plainNumber, valueText } from "./format";
import type { Kind } from "./kinds";
import { jupyterDisplay, type Quantity } from "./quantity";

/** A cell of a table that people read. Empty text, never undefined, where there is nothing to say. */
export type TableCell =
	| string
	| number
	| TypedNumber
	| Quantity
	| Measured<Kind>;

/** A number that is shown as it was typed: "24.50". */
export interface TypedNumber {
	readonly is: "typed";
	readonly text: string;
	readonly value: number;
}

export const isTyped = (cell: unknown): cell is TypedNumber =>
	typeof cell === "object" &&
	cell !== null &&
	"is" in cell &&
	cell.is === "typed";

/** A table for people: column headings carry the unit. Shown as text on a plain console and as HTML in notebooks. */
export interface Table {
	readonly title: string;
	readonly columns: readonly string[];
	readonly rows: readonly (readonly TableCell[])[];
	readonly notes: readonly string[];
}

/** Text of a quantity under a heading: the unit is left out where the heading ends with it in round brackets. */
function quantityText(quantity: Quantity, heading: string): string {
	return heading.endsWith(`(${quantity.unit})`)
		? valueText(quantity.value, quantity.standardUncertainty)
		: String(quantity);
}

const isCell = (cell: unknown): boolean =>
	typeof cell === "string" ||
	typeof cell === "number" ||
	(typeof cell === "object" &&
		cell !== null &&
		("standardUncertainty" in cell || "quantity" in cell || isTyped(cell)));

/** @throws ProblemError for what no cell can show */
function requireCell(cell: unknown, heading: string, title: string): void {
	if (!isCell(cell))
		refuse(
			"wrong-cell",
			title,
			`${foundText(cell)} in a cell under "${heading}"`,
			"a text, a number or a quantity",
			"An empty cell is an empty text.",
		);
}

/** What a cell says under its column's heading. */
export function cellText(cell: TableCell, heading: string): string {
	if (typeof cell === "string") return cell;
	if (typeof cell === "number") return plainNumber(cell);
	if (isTyped(cell)) return cell.text.replace(/^-/, "−");
	if (!("is" in cell)) return quantityText(cell, heading);
	const text = quantityText(cell.quantity, heading);
	return cell.is === "value" ? text : `${cell.is} ${text}`;
}

/** A row of texts under the table's headings. */
function rowTexts(table: Table, row: readonly TableCell[]): string[] {
	return row.map((cell, i) => cellText(cell, table.columns[i]));
}

/** Plain text with aligned columns. */
export function tableText(table: Table): string {
	const rows = [table.columns, ...table.rows.map((r) => rowTexts(table, r))];
	const widths = table.columns.map((_, i) =>
		Math.max(...rows.map((r) => r[i].length)),
	);
	const line = (r: readonly string[]): string =>
		r
			.map((text, i) => text.padEnd(widths[i]))
			.join("  ")
			.trimEnd();
	return [
		table.title,
		line(rows[0]),
		widths.map((w) => "-".repeat(w)).join("  "),
		...rows.slice(1).map(line),
		...table.notes,
	]
		.filter((text) => text !== "")
		.join("\n");
}

export function escapeHtml(text: string): string {
	return text
		.replaceAll("&", "&amp;")
		.replaceAll("<", "&lt;")
		.replaceAll(">", "&gt;")
		.replaceAll('"', "&quot;");
}

/** A plain HTML table; every text is escaped. */
export function tableHtml(table: Table): string {
	const cells = (tag: string, r: readonly string[]): string =>
		r.map((text) => `<${tag}>${escapeHtml(text)}</${tag}>`).join("");
	const caption = table.title
		? `<caption>${escapeHtml(table.title)}</caption>`
		: "";
	const body = table.rows
		.map((r) => `<tr>${cells("td", rowTexts(table, r))}</tr>`)
		.join("");
	const notes = table.notes.map((n) => `<p>${escapeHtml(n)}</p>`).join("");
	return `<table>${caption}<thead><tr>${cells("th", table.columns)}</tr></thead><tbody>${body}</tbody></table>${notes}`;
}

/**
 * A table that shows itself in a notebook.
 * @param columns headings, with the unit in round brackets
 * @throws ProblemError when a row has not as many cells as there are columns
 * @example
 * quantity.table("Doses", ["flask", "char (g)"], [["C1", 0.5], ["C2", 0.4]]) // => "Doses"
 */
export function table(
	title: string,
	columns: readonly string[],
	rows: readonly (readonly TableCell[])[],
	notes: readonly string[] = [],
): Table {
	requireText(title, 'a title in quotes, such as "Doses"', "quantity.table");
	requireList(columns, "the heading of a column", title);
	requireList(rows, "a row, itself a list of cells", title);
	requireList(notes, "a sentence below the table", title);
	for (const r of rows) {
		requireList(r, "a cell", title);
		for (const [i, cell] of r.entries()) requireCell(cell, columns[i], title);
		if (r.length !== columns.length)
			refuse(
				"row-length",
				title,
				`a row of ${r.length} cells (${r.map((c, i) => cellText(c, columns[i] ?? "")).join(", ")})`,
				`${columns.length} cells, one for each column`,
				"Give every row as many cells as there are columns; an empty cell is an empty text.",
			);
	}
	const plain: Table = { title, columns, rows, notes };
	return Object.assign(plain, {
		[jupyterDisplay]: () => ({
			"text/html": tableHtml(plain),
			"text/plain": tableText(plain),
		}),
		[Symbol.for("nodejs.util.inspect.custom")]: () => tableText(plain),
	});
}
