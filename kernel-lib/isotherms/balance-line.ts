import { defineModel, type Model } from "../fit";
import { normalCdf, normalDensity } from "../stats";
import { derivativesOver, type Isotherm } from "./catalogue/index";

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

/**
 * What a bound adds to the sum of squares, as a residual: sqrt(-2 ln Phi(z)), where z is how far the residue that the curve gives lies below the detection limit, in its standard deviations.
 * Its square is minus twice the log of the probability that the titre stayed below the limit, so that the sum of squares is the likelihood.
 */
export function boundResidual(z: number): number {
	return Math.sqrt(minusTwoLogCdf(z));
}

/** d(boundResidual)/dz. */
export function boundResidualSlope(z: number): number {
	const residual = boundResidual(z);
	if (residual === 0) return 0;
	// Phi underflows far below; there the hazard is that of its asymptote.
	const hazard = z > -37 ? normalDensity(z) / normalCdf(z) : -z - 1 / z;
	return -hazard / residual;
}

function minusTwoLogCdf(z: number): number {
	if (z < -37) return z * z + Math.log(2 * Math.PI * z * z);
	return z > 0 ? -2 * Math.log1p(-normalCdf(-z)) : -2 * Math.log(normalCdf(z));
}

/** Columns of x in the model below. */
export const lineColumns = 5;

/**
 * The residue that each flask should show, as a model for the fit engine. x columns: intercept (mg/g), slope (L/g), a residue to begin at (mg/L), the detection limit (mg/L; -1 for a
 * flask whose residue was read), and the standard deviation of a residue at that limit. y is the residue that was read; for a flask that ran dry y is 0 and the model
 * gives `boundResidual`.
 */
export function residueModel(isotherm: Isotherm): Model {
	const fill = derivativesOver(isotherm);
	const split = (
		x: Float64Array,
	): Lines & {
		n: number;
		limit: Float64Array;
		deviation: Float64Array;
	} => {
		const n = x.length / lineColumns;
		const column = (k: number): Float64Array => x.subarray(k * n, (k + 1) * n);
		return {
			n,
			intercept: column(0),
			slope: column(1),
			near: column(2),
			limit: column(3),
			deviation: column(4),
		};
	};
	// Values and derivatives are asked for at the same place one after the other: where the lines are met is kept.
	const last = {
		theta: new Float64Array(0),
		x: new Float64Array(0),
		c: new Float64Array(0),
	};
	const met = (
		theta: Float64Array,
		x: Float64Array,
		lines: Lines & { n: number },
	): Float64Array => {
		if (last.x !== x || !theta.every((v, j) => v === last.theta[j])) {
			last.theta = theta.slice();
			last.x = x;
			last.c = new Float64Array(lines.n);
			meet(isotherm, theta, lines, last.c);
		}
		return last.c;
	};
	return defineModel({
		name: isotherm.name,
		noneLinear: true,
		formula: isotherm.equation,
		parameters: isotherm.model.parameters,
		predictors: lineColumns,
		evaluate: (theta, x, out) => {
			const lines = split(x);
			out.set(met(theta, x, lines));
			for (let i = 0; i < lines.n; i++)
				if (lines.limit[i] >= 0)
					out[i] = boundResidual(
						(lines.limit[i] - out[i]) / lines.deviation[i],
					);
		},
		derivatives: (theta, x, out) => {
			const lines = split(x);
			const { n } = lines;
			const c = met(theta, x, lines);
			fill(theta, isotherm.model.prepare(c), out);
			for (let i = 0; i < n; i++) {
				const rise = lines.slope[i] + isotherm.slope(theta, c[i]);
				let factor = -1 / rise;
				if (lines.limit[i] >= 0)
					factor *=
						-boundResidualSlope((lines.limit[i] - c[i]) / lines.deviation[i]) /
						lines.deviation[i];
				for (let j = 0; j < theta.length; j++)
					out[j * n + i] = c[i] > 0 ? out[j * n + i] * factor : 0;
			}
		},
		start: (x, y, out) => {
			const lines = split(x);
			const read = Array.from({ length: lines.n }, (_, i) => i).filter(
				(i) => lines.limit[i] < 0,
			);
			const c = Float64Array.from(read, (i) => y[i]);
			const q = Float64Array.from(
				read,
				(i) => lines.intercept[i] - lines.slope[i] * y[i],
			);
			if (isotherm.model.start.kind === "from data")
				isotherm.model.start.guess(isotherm.model.prepare(c), q, out);
		},
	});
}
