import { escapeHtml, type LedgerRow, plainNumber } from "../../quantity";
import { bytesOf, type PackedFile } from "../large/packed-file";
import type { StructuredCell, StructuredTable } from "../structured-table";

/** A text of more letters is a sentence, which a column must not squeeze into a tower of words. */
const longText = 40;

function cellHtml(cell: StructuredCell, header: boolean): string {
	const tag = header
		? 'th scope="row"'
		: cell.is === "text"
			? cell.text.length > longText
				? 'td class="prose"'
				: "td"
			: 'td class="number"';
	return `<${tag}>${escapeHtml(cell.text)}</${tag.split(" ")[0]}>`;
}

/** Tables with more columns keep their cells wide and scroll; with more rows they scroll in a frame of limited height. */
const manyColumns = 9;
const manyRows = 30;

/** More columns than a sheet of paper can hold in a size that can be read. */
const tooManyForPaper = 16;

/** A table in a frame of its own that scrolls on a narrow screen and can be reached by keyboard. */
export function framed(
	label: string,
	table: string,
	columns: number,
	rows: number,
): string {
	const tooWide = columns > tooManyForPaper;
	const look = [
		"wide",
		...(columns > manyColumns ? ["many"] : []),
		...(rows > manyRows ? ["long"] : []),
		...(tooWide ? ["screen-only"] : []),
	].join(" ");
	const instead = tooWide
		? `<p class="paper-only note">A table of ${columns} columns stands here on the screen; it is too wide for paper.</p>`
		: "";
	return `${instead}<div class="${look}" role="group" tabindex="0" aria-label="${escapeHtml(label)}">${table}</div>`;
}

/** A structured table; with `rowHeaders` the first cell of each row names the row. */
export function tableMarkup(
	table: StructuredTable,
	label: string,
	rowHeaders = false,
): string {
	const caption =
		table.title === "" ? "" : `<caption>${escapeHtml(table.title)}</caption>`;
	const head = table.columns
		.map((c) =>
			c === "" ? "<td></td>" : `<th scope="col">${escapeHtml(c)}</th>`,
		)
		.join("");
	const body = table.rows
		.map(
			(row) =>
				`<tr>${row.map((cell, i) => cellHtml(cell, rowHeaders && i === 0)).join("")}</tr>`,
		)
		.join("");
	const notes = table.notes
		.map((n) => `<p class="note">${escapeHtml(n)}</p>`)
		.join("");
	const summary =
		table.large === undefined
			? ""
			: tableMarkup(table.large.summary, label, true);
	return `${summary}${framed(table.title || label, `<table>${caption}<thead><tr>${head}</tr></thead><tbody>${body}</tbody></table>`, table.columns.length, table.rows.length)}${notes}${insideMarkup(table)}`;
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

function placeText(row: LedgerRow): string {
	if (row.row === 0) return row.source;
	return `${row.file}${row.sheet === "" ? "" : `, sheet ${row.sheet}`}, row ${row.row}, column ${row.column}`;
}

function uncertaintyText(u: number): string {
	return u > 0 ? plainNumber(Number(u.toPrecision(3))) : "exact";
}

/** The ledger, each line with links to the lines that it was made from. */
export function ledgerMarkup(rows: readonly LedgerRow[]): string {
	const known = new Map(rows.map((r) => [r.id, r]));
	const body = rows
		.map((r) => {
			const inputs = r.inputs
				.map((id) => known.get(id))
				.filter((x) => x !== undefined)
				.map(
					(x) =>
						`<a href="#line-${escapeHtml(x.id)}">${escapeHtml(x.symbol || x.meaning || x.id)}</a>`,
				)
				.join(", ");
			const from = inputs === "" ? escapeHtml(placeText(r)) : inputs;
			const unit = r.unit === "1" ? "" : escapeHtml(r.unit);
			return `<tr id="line-${escapeHtml(r.id)}"><th scope="row">${escapeHtml(r.symbol)}</th><td>${escapeHtml(r.meaning)}</td><td class="number">${escapeHtml(plainNumber(r.value))}</td><td class="number">${escapeHtml(uncertaintyText(r.standardUncertainty))}</td><td>${unit}</td><td>${escapeHtml(r.formula)}</td><td>${from}</td></tr>`;
		})
		.join("");
	const head = [
		"symbol",
		"meaning",
		"value",
		"standard uncertainty",
		"unit",
		"formula",
		"from",
	]
		.map((c) => `<th scope="col">${c}</th>`)
		.join("");
	return framed(
		"Ledger",
		`<table class="ledger"><thead><tr>${head}</tr></thead><tbody>${body}</tbody></table>`,
		7,
		rows.length,
	);
}
