/** Decimal places that show a standard uncertainty with two significant digits (JCGM 100:2008, 7.2.6). Negative: tens, hundreds. */
export function decimalsFor(uncertainty: number): number {
	if (!(uncertainty > 0) || !Number.isFinite(uncertainty)) return 4;
	const first = Math.floor(Math.log10(uncertainty));
	// 0.0996 rounds up to 0.10: look at the rounded number, not at the raw one.
	const rounded = Number(uncertainty.toPrecision(2));
	return 1 - Math.max(first, Math.floor(Math.log10(rounded) + 1e-12));
}

/** A plain decimal number rounded to a place; never an exponent for the numbers of a bench. */
export function fixed(value: number, decimals: number): string {
	if (!Number.isFinite(value)) return "not a number";
	if (decimals >= 0) {
		const text = value.toFixed(Math.min(decimals, 20));
		return Number(text) === 0 ? text.replace("-", "") : text;
	}
	const step = 10 ** -decimals;
	return String(Math.round(value / step) * step);
}

/** An exact or bare number with as many digits as it needs, at most eight significant. */
export function plainNumber(value: number): string {
	if (!Number.isFinite(value)) return "not a number";
	const text = String(Number(value.toPrecision(8)));
	return text;
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

/** A value rounded by its uncertainty, with unit. */
export function formatQuantity(q: {
	readonly value: number;
	readonly standardUncertainty: number;
	readonly unit: string;
}): string {
	const u = q.standardUncertainty;
	if (!(u > 0)) return `${plainNumber(q.value)}${unitText(q.unit)}`;
	const [value, uncertainty] = roundedPair(q.value, u);
	return unitText(q.unit) === ""
		? `${value} ± ${uncertainty}`
		: `(${value} ± ${uncertainty})${unitText(q.unit)}`;
}
