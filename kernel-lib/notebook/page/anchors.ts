/** Ids on a page that links may lead to. None holds a name or a text of the notebook but a flask's, of which only letters and digits are taken. */

/** A cell of a sheet, by the sheet's number on the page, the row as the file counts it and the column from 0. */
export const cellId = (sheet: number, row: number, column: number): string =>
	`cell-${sheet}-${row}-${column + 1}`;

/** A row of a sheet. */
export const rowId = (sheet: number, row: number): string =>
	`row-${sheet}-${row}`;

/** A line of the ledger. */
export const lineId = (id: string): string => `line-${id}`;

/** How a difference was had, by its place among the verdicts of its comparison as they were reported. */
export const differenceId = (comparison: number, place: number): string =>
	`difference-${comparison}-${place}`;

/** Names as ids: letters and digits, in small letters, a number behind those that would be alike. */
export function idMaker(prefix: string): (text: string) => string {
	const used = new Set<string>();
	return (text) => {
		const base =
			text
				.toLowerCase()
				.replace(/[^\p{L}\p{N}]+/gu, "-")
				.replace(/^-+|-+$/g, "") || "part";
		let id = `${prefix}-${base}`;
		for (let n = 2; used.has(id); n++) id = `${prefix}-${base}-${n}`;
		used.add(id);
		return id;
	};
}
