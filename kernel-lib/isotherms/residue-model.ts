import { defineModel, type Model } from "../fit";
import { type Lines, meet } from "./balance-line";
import { boundResidual, boundResidualSlope } from "./bound-residual";
import { derivativesOver, type Isotherm } from "./catalogue/index";

/** Columns of x in the model below. */
export const lineColumns = 5;

/** The columns of x, one entry for each flask. */
interface Flasks extends Lines {
	readonly n: number;
	readonly limit: Float64Array;
	readonly deviation: Float64Array;
}

function split(x: Float64Array): Flasks {
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
}

/** Where the isotherm meets the lines. Values and derivatives are asked for at the same place one after the other: the last is kept. */
function meetings(
	isotherm: Isotherm,
): (theta: Float64Array, x: Float64Array, flasks: Flasks) => Float64Array {
	const last = {
		theta: new Float64Array(0),
		x: new Float64Array(0),
		c: new Float64Array(0),
	};
	return (theta, x, flasks) => {
		if (last.x !== x || !theta.every((v, j) => v === last.theta[j])) {
			last.theta = theta.slice();
			last.x = x;
			last.c = new Float64Array(flasks.n);
			meet(isotherm, theta, flasks, last.c);
		}
		return last.c;
	};
}

/** Start values from the flasks whose residue was read. */
function startFrom(
	isotherm: Isotherm,
	flasks: Flasks,
	y: Float64Array,
	out: Float64Array,
): void {
	const read = Array.from({ length: flasks.n }, (_, i) => i).filter(
		(i) => flasks.limit[i] < 0,
	);
	const c = Float64Array.from(read, (i) => y[i]);
	const q = Float64Array.from(
		read,
		(i) => flasks.intercept[i] - flasks.slope[i] * y[i],
	);
	if (isotherm.model.start.kind === "from data")
		isotherm.model.start.guess(isotherm.model.prepare(c), q, out);
}

/**
 * The residue that each flask should show, as a model for the fit engine. x columns: intercept (mg/g), slope (L/g), a residue to begin at (mg/L), the detection limit (mg/L; -1 for a
 * flask whose residue was read), and the standard deviation of a residue at that limit. y is the residue that was read; for a flask that ran dry y is 0 and the model
 * gives `boundResidual`.
 */
export function residueModel(isotherm: Isotherm): Model {
	const fill = derivativesOver(isotherm);
	const met = meetings(isotherm);
	return defineModel({
		name: isotherm.name,
		noneLinear: true,
		formula: isotherm.equation,
		parameters: isotherm.model.parameters,
		predictors: lineColumns,
		evaluate: (theta, x, out) => {
			const flasks = split(x);
			out.set(met(theta, x, flasks));
			for (let i = 0; i < flasks.n; i++)
				if (flasks.limit[i] >= 0)
					out[i] = boundResidual(
						(flasks.limit[i] - out[i]) / flasks.deviation[i],
					);
		},
		derivatives: (theta, x, out) => {
			const flasks = split(x);
			const { n, limit, deviation, slope } = flasks;
			const c = met(theta, x, flasks);
			fill(theta, isotherm.model.prepare(c), out);
			for (let i = 0; i < n; i++) {
				const rise = slope[i] + isotherm.slope(theta, c[i]);
				let factor = -1 / rise;
				if (limit[i] >= 0)
					factor *=
						-boundResidualSlope((limit[i] - c[i]) / deviation[i]) /
						deviation[i];
				for (let j = 0; j < theta.length; j++)
					out[j * n + i] = c[i] > 0 ? out[j * n + i] * factor : 0;
			}
		},
		start: (x, y, out) => startFrom(isotherm, split(x), y, out),
	});
}
