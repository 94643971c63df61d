// @ts-check
/**
 * A value as JSON with six digits, lists of numbers on one line, as the formatter of this repository leaves them.
 * @param {unknown} value
 */
export const jsonOf = (value) =>
	`${JSON.stringify(
		value,
		(_, v) => (typeof v === "number" ? Number(v.toPrecision(6)) : v),
		"\t",
	).replace(
		/\[\s*(-?[\d.e-]+(?:,\s*-?[\d.e-]+)*)\s*\]/g,
		(_, numbers) => `[${numbers.split(/,\s*/).join(", ")}]`,
	)}\n`;
