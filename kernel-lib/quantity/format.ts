/** Decimal places that show a standard uncertainty with two significant digits (JCGM 100:2008, 7.2.6). Negative: tens, hundreds. */
export function decimalsFor(uncertainty: number): number {
	if (!(uncertainty > 0) || !Number.isFinite(uncertainty)) return 4;
	const first = Math.floor(Math.log10(uncertainty));
	// 0.0996 rounds up to 0.10: look at the rounded number, not at the raw one.
	const rounded = Number(uncertainty.toPrecision(2));
	return 1 - Math.max(first, Math.floor(Math.log10(rounded) + 1e-12));
}

/** The minus sign of printed numbers. What machines read (results.json, CSV, TeX, ids) keeps the hyphen. */
function withTrueMinus(digits: string): string {
	return digits.replace(/^-/, "\u2212");
}

/** A decimal number rounded to a place, in the characters that machines read. */
export function fixedDigits(value: number, decimals: number): string {
	if (!Number.isFinite(value)) return "not a number";
	if (decimals >= 0) {
		const text = value.toFixed(Math.min(decimals, 20));
		return Number(text) === 0 ? text.replace("-", "") : text;
	}
	const step = 10 ** -decimals;
	// Adding zero takes the sign from a zero.
	return String(Math.round(value / step) * step + 0);
}

/** A decimal number rounded to a place, for readers; never a power of ten for the numbers of a bench. */
export function fixed(value: number, decimals: number): string {
	return withTrueMinus(fixedDigits(value, decimals));
}

/** An exact or bare number with as many digits as it needs, at most eight significant, in the characters that machines read. */
export function plainDigits(value: number): string {
	return Number.isFinite(value)
		? String(Number(value.toPrecision(8)))
		: "not a number";
}

/** From here on, and below the other, a number is written with a power of ten. Our decision: 0.0001 g and 1,000,000 times are still read at a glance. */
const longNumber = 1e7;
const smallNumber = 1e-4;

const superscripts = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/** "10⁻⁷" */
export function powerOfTen(exponent: number): string {
	const digits = [...String(Math.abs(exponent))]
		.map((d) => superscripts[Number(d)])
		.join("");
	return `10${exponent < 0 ? "⁻" : ""}${digits}`;
}

/** An exact or bare number for readers: at most eight significant digits, "1.61 × 10¹⁰" where it would be long. */
export function plainNumber(value: number): string {
	const size = Math.abs(value);
	if (
		!Number.isFinite(value) ||
		(size < longNumber && size >= smallNumber) ||
		size === 0
	)
		return withTrueMinus(plainDigits(value));
	const [digits, exponent] = value.toExponential(7).split("e");
	return `${withTrueMinus(String(Number(digits)))} × ${powerOfTen(Number(exponent))}`;
}

/** A bare number to some significant digits, those at its end that are zero left away. */
export function significant(value: number, digits: number): string {
	return plainNumber(Number(value.toPrecision(digits)));
}

/** Digits of a computed number that no uncertainty goes with. Our decision. */
const bareDigits = 5;

/** A computed number without an uncertainty: a whole one as it is, another with five digits. */
export function bareNumber(value: number): string {
	return Number.isInteger(value)
		? plainNumber(value)
		: significant(value, bareDigits);
}

/** Value and standard uncertainty to the same place: ["812.4", "6.1"]. */
export function roundedPair(
	value: number,
	uncertainty: number,
): [string, string] {
	if (!(uncertainty > 0)) return [plainNumber(value), "0"];
	const decimals = decimalsFor(uncertainty);
	return [fixed(value, decimals), fixed(uncertainty, decimals)];
}

export function unitText(unit: string): string {
	return unit === "1" || unit === "pH" || unit === "absorbance"
		? ""
		: unit === "%"
			? " %"
			: ` ${unit}`;
}

/** A value and its standard uncertainty u, which shows two digits and gives the value its own (JCGM 100:2008, 7.2.6): "812.4 mg/g (u 6.1 mg/g)"; "812.4 (u 6.1)" where the unit stands elsewhere. */
export function valueText(
	value: number,
	uncertainty: number,
	unit = "1",
): string {
	const [digits, u] = roundedPair(value, uncertainty);
	const after = unitText(unit);
	return uncertainty > 0
		? `${digits}${after} (u ${u}${after})`
		: `${digits}${after}`;
}

/** A value and its interval, to the place that half of the interval shows with two digits: "326.1 mg/g (322.0 to 330.2)". What interval it is has to be said beside it, once. */
export function intervalText(
	value: number,
	low: number,
	high: number,
	unit = "1",
): string {
	const decimals = decimalsFor((high - low) / 2);
	return `${fixed(value, decimals)}${unitText(unit)} (${fixed(low, decimals)} to ${fixed(high, decimals)})`;
}

/** A value rounded by its uncertainty, with unit. */
export function formatQuantity(q: {
	readonly value: number;
	readonly standardUncertainty: number;
	readonly unit: string;
}): string {
	return valueText(q.value, q.standardUncertainty, q.unit);
}
