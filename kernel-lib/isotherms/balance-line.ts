import type { Isotherm } from "./catalogue/index";

/** Steps in ln C, enough to halve any bracket away; Newton needs three or four. */
const mostSteps = 200;
/** Newton doubles the digits: a step below this leaves an error far below rounding. */
const lastStep = 1e-7;
/** A bracket in ln C that rounding fills. */
const narrowest = 1e-14;
/** How many times e-fold a bracket may be widened. */
const mostWidenings = 60;
/** Residues below this share of the greatest possible one are none. */
const least = 1e-30;

/** Balance lines of several flasks as plain arrays: intercept (mg/g), slope (L/g) and a residue to begin at (mg/L). */
export interface Lines {
	readonly intercept: ArrayLike<number>;
	readonly slope: ArrayLike<number>;
	readonly near: ArrayLike<number>;
}

/**
 * Where an isotherm meets the balance line of each flask: slope C + q(C) = intercept, by Newton's method between the logarithms of both sides (for a power law nearly a straight line), kept inside a
 * bracket that halving takes over where a step would leave it. A flask whose line starts at or below zero holds nothing: 0.
 */
export function meet(
	isotherm: Isotherm,
	theta: Float64Array,
	lines: Lines,
	out: Float64Array,
): void {
	const n = out.length;
	const { evaluate, prepare } = isotherm.model;
	const top = isotherm.highestConcentration * (1 - 1e-12);
	const low = new Float64Array(n);
	const high = new Float64Array(n);
	const settled = new Uint8Array(n);
	const q = new Float64Array(n);
	for (let i = 0; i < n; i++) {
		const most = Math.min(lines.intercept[i] / lines.slope[i], top);
		if (!(most > 0)) {
			out[i] = 1;
			settled[i] = 2;
			continue;
		}
		low[i] = Math.log(most * least);
		high[i] = Math.log(most);
		out[i] = most;
	}
	const excess = (i: number): number =>
		lines.slope[i] * out[i] + q[i] - lines.intercept[i];
	// A curve that is below zero there (Temkin) meets its line farther on.
	for (let step = 0; step < mostWidenings; step++) {
		evaluate(theta, prepare(out), q);
		let open = 0;
		for (let i = 0; i < n; i++) {
			if (settled[i] !== 0 || !(excess(i) < 0) || out[i] >= top) continue;
			low[i] = high[i];
			high[i] = Math.min(high[i] + 1, Math.log(top));
			out[i] = Math.exp(high[i]);
			open += 1;
		}
		if (open === 0) break;
	}
	for (let i = 0; i < n; i++)
		if (settled[i] === 0)
			out[i] = inside(lines.near[i], low[i], high[i])
				? lines.near[i]
				: Math.exp(Math.max(low[i], high[i] - 1));
	for (let step = 0; step < mostSteps; step++) {
		evaluate(theta, prepare(out), q);
		let open = 0;
		for (let i = 0; i < n; i++) {
			if (settled[i] !== 0) continue;
			const c = out[i];
			const u = Math.log(c);
			const above = excess(i);
			if (above > 0) high[i] = u;
			else low[i] = u;
			const rise = c * (lines.slope[i] + isotherm.slope(theta, c));
			const held = lines.intercept[i] + above;
			const newton =
				held > 0
					? u - (Math.log(held / lines.intercept[i]) * held) / rise
					: u - above / rise;
			const usable = newton >= low[i] && newton <= high[i];
			out[i] = Math.exp(usable ? newton : (low[i] + high[i]) / 2);
			if (
				(usable && Math.abs(newton - u) <= lastStep) ||
				high[i] - low[i] <= narrowest
			)
				settled[i] = 1;
			else open += 1;
		}
		if (open === 0) break;
	}
	for (let i = 0; i < n; i++) if (settled[i] === 2) out[i] = 0;
}

function inside(value: number, low: number, high: number): boolean {
	return value > 0 && Math.log(value) > low && Math.log(value) < high;
}
