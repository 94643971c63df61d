import { type Kind, readUnit } from "../quantity";

/** Which mark stands before the decimals in a table, as far as its unambiguous cells tell. "mostly": the other stands in a few cells too, which are then the odd ones. */
export type DecimalMark =
	| "comma"
	| "point"
	| "mostly comma"
	| "mostly point"
	| "both"
	| "not told";

/** So many times as many cells with one mark as with the other make the others odd. */
const prevails = 5;

/** The mark of a table from its unambiguous cells. */
export function decimalMark(commas: number, points: number): DecimalMark {
	if (commas === 0) return points === 0 ? "not told" : "point";
	if (points === 0) return "comma";
	if (points >= prevails * commas) return "mostly point";
	return commas >= prevails * points ? "mostly comma" : "both";
}

export type NumberReading =
	| { readonly is: "number"; readonly value: number }
	| {
			readonly is: "refused";
			readonly code: string;
			readonly found: string;
			readonly mend: string;
	  };

const grouped = /^[+-]?\d{1,3}(?:[ '’]\d{3})+(?:[.,]\d+)?$/;
const plain = /^[+-]?(?:\d+[.,]?\d*|[.,]\d+)(?:[eE][+-]?\d+)?$/;
/** One mark with exactly three digits after it, which could be thousands: "1.234", not "0.234". */
const threeAfter = /^[+-]?[1-9]\d{0,2}[.,]\d{3}$/;

/** What a text says about the decimal mark: "" where it says nothing. */
export function markIn(text: string): "," | "." | "" {
	if (!plain.test(text) || threeAfter.test(text)) return "";
	return text.includes(",") ? "," : text.includes(".") ? "." : "";
}

/** No mass, volume or reading of a bench is smaller or larger, in any unit that a sheet may use; beyond it arithmetic would run over. Our decision. */
export const readable = { least: 1e-15, most: 1e15 } as const;

function isOfThisWorld(value: number): boolean {
	const size = Math.abs(value);
	return size === 0 || (size >= readable.least && size <= readable.most);
}

function refused(code: string, found: string, mend: string): NumberReading {
	return { is: "refused", code, found, mend };
}

function ambiguous(text: string, value: string): NumberReading {
	return refused(
		"number-ambiguous",
		`"${text}", in which a mark may stand for decimals or for thousands`,
		`Write it without marks for thousands: is it ${value}?`,
	);
}

/**
 * Reads a number as a person may have typed it in a column whose unit is known. Decimal point or comma; spaces or apostrophes between thousands; a unit
 * typed into the cell only where it is the column's own. Everything else is refused with the reason.
 *
 * @param unit the column's unit; "" for a bare number
 */
export function readNumber(
	text: string,
	mark: DecimalMark,
	commaLikely: boolean,
	kind: Kind,
	unit: string,
): NumberReading {
	let t = text.replace(/\u2212/g, "-");
	if (grouped.test(t)) t = t.replace(/[ '’]/g, "");
	else if (/\d[.,]\d.*[.,]/.test(t) && /^[+-]?[\d.,]+$/.test(t)) {
		const last = Math.max(t.lastIndexOf("."), t.lastIndexOf(","));
		return ambiguous(
			text,
			`${t.slice(0, last).replace(/[.,]/g, "")}${t[last]}${t.slice(last + 1)} or ${t.replace(/[.,]/g, "")}`,
		);
	}
	if (plain.test(t)) {
		const own = markIn(t);
		if (
			(own === "," && mark === "mostly point") ||
			(own === "." && mark === "mostly comma")
		)
			return refused(
				"decimal-mark-odd",
				`"${text}" in a table that writes decimal ${own === "," ? "points" : "commas"}`,
				`Write it like the others: is it ${own === "," ? t.replace(",", ".") : t.replace(".", ",")}?`,
			);
		if (threeAfter.test(t)) {
			const comma = t.includes(",");
			const likely = comma
				? mark === "comma" ||
					mark === "mostly comma" ||
					(mark === "not told" && commaLikely)
				: mark === "point" || mark === "mostly point" || mark === "not told";
			if (!likely)
				return ambiguous(
					text,
					`${t.replace(/[.,]/, "")}, or ${t.replace(/[.,]/, comma ? "," : ".")}0 with a decimal ${comma ? "comma" : "point"}`,
				);
		}
		const value = Number(t.replace(",", "."));
		if (Number.isFinite(value) && isOfThisWorld(value))
			return { is: "number", value };
		return refused(
			"number-out-of-range",
			`"${text}", a number that no instrument reads`,
			"Look at its exponent.",
		);
	}
	return explain(text, mark, commaLikely, kind, unit);
}

/** What people write where a number is meant, and what to write instead. */
const noNumbers: readonly {
	readonly pattern: RegExp;
	readonly code: string;
	readonly found: (shown: string) => string;
	readonly mend: string;
}[] = [
	{
		pattern:
			/^(n\/?a|n\.a\.?|nd|n\.d\.?|nil|none|nan|null|missing|tbd|x|[-–—?.]+)$/i,
		code: "no-value",
		found: (shown) => `${shown}, which says that there is no value`,
		mend: "Leave the cell empty where nothing was recorded; an empty cell is never taken for 0.",
	},
	{
		pattern: /^[<≤]/,
		code: "less-than",
		found: (shown) => `${shown}, which is a limit and not a reading`,
		mend: "Write the reading itself. For a titre of a solution that was colourless from the start write 0: the result then becomes a bound.",
	},
	{
		pattern: /^[>≥]/,
		code: "more-than",
		found: (shown) => `${shown}, which is a limit and not a reading`,
		mend: "Write the reading itself, and what happened in the notes or among the deviations.",
	},
	{
		pattern: /^(ca|circa|approx|about|roughly|~|≈)/i,
		code: "approximate",
		found: (shown) => `${shown}, which is only about a number`,
		mend: "Write the number itself; say in the glassware table how well it was measured (class, tolerance or division).",
	},
	{
		pattern: /±|\+\s*\/\s*-/,
		code: "uncertainty-in-cell",
		found: (shown) => `${shown}, which holds a value and its uncertainty`,
		mend: "Write the value alone; uncertainties belong into the solutions or the glassware table.",
	},
	{
		pattern: /^#/,
		code: "spreadsheet-error",
		found: (shown) => `the spreadsheet error ${shown}`,
		mend: "Mend the formula in the spreadsheet, or type the value.",
	},
];

function explain(
	text: string,
	mark: DecimalMark,
	commaLikely: boolean,
	kind: Kind,
	unit: string,
): NumberReading {
	const shown = `"${text}"`;
	const known = noNumbers.find(({ pattern }) => pattern.test(text));
	if (known !== undefined)
		return refused(known.code, known.found(shown), known.mend);
	const withUnit = /^([+-]?[\d.,' ]*\d)\s*([^\d\s.,].*)$/.exec(text);
	if (withUnit) {
		const typed = readUnit(kind, withUnit[2]);
		if (unit !== "" && typed.ok && typed.value === unit)
			return readNumber(withUnit[1], mark, commaLikely, kind, unit);
		return refused(
			"unit-in-cell",
			`${shown}, a number with "${withUnit[2]}" behind it`,
			unit === ""
				? "Write the number alone."
				: `Write the number alone, in ${unit}, as the head of the column says.`,
		);
	}
	return refused("not-a-number", shown, "Write the number alone.");
}
