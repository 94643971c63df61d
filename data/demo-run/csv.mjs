// @ts-check
/** @typedef {import("../simulation/plan.mjs").Row} Row */

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
