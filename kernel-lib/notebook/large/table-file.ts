import papaparse from "papaparse";
import { cellText, isTyped, type Table, type TableCell } from "../../quantity";
import { type PackedFile, packed } from "./packed-file";

/** "Where the iodine went" becomes "where-the-iodine-went". */
function fileStem(title: string): string {
	return (
		title
			.toLowerCase()
			.replace(/[^a-z0-9]+/g, "-")
			.slice(0, 60)
			.replace(/^-+|-+$/g, "") || "table"
	);
}

const holdsQuantity = (cell: TableCell): boolean =>
	typeof cell === "object" && !isTyped(cell);

/** What a column of quantities has beside its texts, so that nothing is lost by rounding. */
const besideText = ["value", "unit", "standard uncertainty"] as const;

function numbersOf(cell: TableCell): readonly (string | number)[] {
	if (typeof cell !== "object" || isTyped(cell))
		return besideText.map(() => "");
	const q = "is" in cell ? cell.quantity : cell;
	return [q.value, q.unit, q.standardUncertainty];
}

function csvLine(fields: readonly (string | number)[]): string {
	return `${papaparse.unparse([[...fields]], { newline: "\r\n", escapeFormulae: true })}\r\n`;
}

function* csvLines({ columns, rows, notes }: Table): Generator<string> {
	const quantities = columns.map((_, i) =>
		rows.some((row) => holdsQuantity(row[i])),
	);
	yield csvLine(
		columns.flatMap((heading, i) => [
			heading,
			...(quantities[i] ? besideText.map((t) => `${heading}: ${t}`) : []),
		]),
	);
	for (const row of rows)
		yield csvLine(
			row.flatMap((cell, i) => [
				cellText(cell, columns[i]),
				...(quantities[i] ? numbersOf(cell) : []),
			]),
		);
	for (const note of notes) yield csvLine([note]);
}

/** What the names of such files end with: nothing else that lies among them is taken for one. */
export const tableFileName = /-[0-9a-f]{8}\.csv\.gz$/;

/** The whole of a table as a compressed CSV file, every quantity as its text and with all its digits, the table's notes at the end. The start of its hash is in its name: two tables of one title are two files. */
export function tableFile(table: Table): PackedFile {
	return packed(
		(sha256) => `${fileStem(table.title)}-${sha256.slice(0, 8)}.csv.gz`,
		csvLines(table),
	);
}
