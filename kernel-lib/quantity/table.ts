import { type Measured, measuredText } from "./bound";
import { plainNumber } from "./format";
import type { Kind } from "./kinds";
import { jupyterDisplay, type Quantity } from "./quantity";

/** A cell of a table that people read. Empty text, never undefined, where there is nothing to say. */
export type TableCell = string | number | Quantity | Measured<Kind>;

/** A table for people: column headings carry the unit. Shown as text on a plain console and as HTML in notebooks. */
export interface Table {
	readonly title: string;
	readonly columns: readonly string[];
	readonly rows: readonly (readonly TableCell[])[];
	readonly notes: readonly string[];
}

export function cellText(cell: TableCell): string {
	if (typeof cell === "string") return cell;
	if (typeof cell === "number") return plainNumber(cell);
	return "is" in cell ? measuredText(cell) : String(cell);
}

/** Plain text with aligned columns. */
export function tableText(table: Table): string {
	const rows = [table.columns, ...table.rows.map((r) => r.map(cellText))];
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
		.map((r) => `<tr>${cells("td", r.map(cellText))}</tr>`)
		.join("");
	const notes = table.notes.map((n) => `<p>${escapeHtml(n)}</p>`).join("");
	return `<table>${caption}<thead><tr>${cells("th", table.columns)}</tr></thead><tbody>${body}</tbody></table>${notes}`;
}

/**
 * Makes a table that shows itself.
 * @throws RangeError when a row has not as many cells as there are columns
 */
export function table(
	title: string,
	columns: readonly string[],
	rows: readonly (readonly TableCell[])[],
	notes: readonly string[] = [],
): Table {
	for (const r of rows) {
		if (r.length !== columns.length)
			throw new RangeError(
				`The table "${title}" has ${columns.length} columns and a row of ${r.length} cells.`,
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
