/** The part of a table that is shown: all of it, or of a large one a summary and the rows at the extremes. */
import { type Table, table } from "../../quantity";
import { extremeRows } from "./extremes";
import { wholeRows } from "./limits";
import type { PackedFile } from "./packed-file";
import { summaryOf } from "./summary";
import { tableFile } from "./table-file";

export type ShownPart =
	| { readonly is: "whole"; readonly table: Table }
	| {
			readonly is: "summary and extremes";
			/** The rows at the extremes, with the notes of the whole table and one on what is shown. */
			readonly table: Table;
			readonly summary: Table;
			readonly whole: PackedFile;
	  };

const told = (rows: number, shown: number, { name, sha256 }: PackedFile) =>
	`Of ${rows} rows the ${shown} are shown that hold the lowest or the highest number of a column. All ${rows} are in the file ${name}, which a run writes beside its page (SHA-256 ${sha256}).`;

/** A table of words alone has no extremes, and is shown whole. */
export function shownPart(full: Table): ShownPart {
	const rows = full.rows.length > wholeRows ? extremeRows(full) : [];
	if (rows.length === 0) return { is: "whole", table: full };
	const whole = tableFile(full);
	return {
		is: "summary and extremes",
		table: table(
			full.title,
			full.columns,
			rows.map((row) => full.rows[row]),
			[...full.notes, told(full.rows.length, rows.length, whole)],
		),
		summary: summaryOf(full),
		whole,
	};
}
