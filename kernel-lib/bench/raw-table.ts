/** A cell as it was read: text, or a number where the file itself says that it is one. "" is an empty cell. */
export type RawCell = string | number;

export interface RawRow {
	/** Row as a person counts it in the file, header included. */
	readonly row: number;
	readonly cells: readonly RawCell[];
}

/** One table of a sheet, whatever file it came from. */
export interface RawTable {
	readonly file: string;
	/** Hash of the content of the file that it came from. */
	readonly hash: string;
	/** Name of the table: flasks, solutions, deviations or glassware. */
	readonly sheet: string;
	readonly headers: readonly string[];
	readonly rows: readonly RawRow[];
	/** Fully empty rows between filled ones, which were skipped. */
	readonly emptyRows: number;
	/** Cells in the row of the headers, empty ones at its end included. */
	readonly width: number;
	/** Row of the headers. */
	readonly headerRow: number;
	/** True for rows typed in: heads may be written differently from row to row ("dose (mL)" and "dose 1 (mL)"). */
	readonly headsByRow: boolean;
	/** True where the file's own form (semicolons between the cells) speaks for decimal commas. */
	readonly commaLikely: boolean;
	/** Remarks of the reader, for the list of assumptions. */
	readonly remarks: readonly string[];
}

/** Text without stray spaces: non-breaking and thin spaces count as spaces, runs of them as one; byte order marks and zero-width marks are dropped. */
export function tidy(text: string): string {
	// The quick way for the plain cells that most are.
	if (/^[!-~]*$/.test(text)) return text;
	return text
		.replace(/\p{Cf}/gu, "")
		.replace(/\s+/g, " ")
		.trim();
}

/**
 * Makes a table of a grid of cells: finds the header row (the first, among the first twenty, that has a head of the key column; else the first that is not empty), keeps
 * the row numbers and counts the empty rows.
 */
export function tableOfGrid(
	grid: readonly (readonly RawCell[])[],
	keys: readonly string[],
	about: Pick<
		RawTable,
		"file" | "hash" | "sheet" | "headsByRow" | "commaLikely" | "remarks"
	>,
): RawTable {
	const isEmpty = (r: readonly RawCell[]): boolean => r.every((c) => c === "");
	const hasKey = (r: readonly RawCell[]): boolean =>
		r.some((c) => typeof c === "string" && keys.includes(c.toLowerCase()));
	const named = grid.slice(0, 20).findIndex(hasKey);
	const head = named >= 0 ? named : grid.findIndex((r) => !isEmpty(r));
	const headers = head < 0 ? [] : grid[head].map((c) => String(c));
	while (headers.length > 0 && headers[headers.length - 1] === "")
		headers.pop();
	const rows: RawRow[] = [];
	let emptyRows = 0;
	let waiting = 0;
	for (let i = head + 1; head >= 0 && i < grid.length; i++) {
		if (isEmpty(grid[i])) {
			waiting += 1;
			continue;
		}
		emptyRows += waiting;
		waiting = 0;
		rows.push({ row: i + 1, cells: grid[i] });
	}
	const above = grid.slice(0, Math.max(head, 0)).filter((r) => !isEmpty(r));
	const remarks =
		above.length === 0
			? about.remarks
			: [
					...about.remarks,
					`${about.file}, ${about.sheet}: ${above.length} line${above.length === 1 ? "" : "s"} above the header row ${head + 1} not read as data ("${above[0].find((c) => c !== "")}" ...).`,
				];
	const width = head < 0 ? 0 : grid[head].length;
	return {
		...about,
		headers,
		rows,
		emptyRows,
		width,
		headerRow: head + 1,
		remarks,
	};
}
