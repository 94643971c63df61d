// @ts-check
/** @typedef {Record<string, string | number>} Row */

/** @param {string | number} value */
const cell = (value) => {
	const text = String(value);
	return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};

/**
 * Rows as CSV, with the columns of the first row.
 * @param {Row[]} rows
 */
export const csvOf = (rows) => {
	const columns = Object.keys(rows[0]);
	return `${[columns, ...rows.map((r) => columns.map((c) => r[c] ?? ""))]
		.map((line) => line.map(cell).join(","))
		.join("\n")}\n`;
};

/**
 * The other way round, for sheets as simple as these (no quoted commas across lines).
 * @param {string} text @returns {Record<string, string>[]}
 */
export const rowsOf = (text) => {
	const [header, ...lines] = text
		.trimEnd()
		.split("\n")
		.map((line) =>
			[...line.matchAll(/("(?:[^"]|"")*"|[^,]*)(?:,|$)/g)]
				.map((m) => m[1].replace(/^"|"$/g, "").replaceAll('""', '"'))
				.slice(0, -1),
		);
	return lines.map((line) =>
		Object.fromEntries(header.map((name, i) => [name, line[i]])),
	);
};
