import { dot, pseudoInverse, rowsOf } from "../linear";
import type { Unit } from "./units";

/**
 * Uptake of a unit = what its treatment does + what its day does + scatter, fitted by least squares. The first day is the zero of the days; a unit whose flasks lie on
 * several days gets the mean of theirs. Residual degrees of freedom: units less the rank of the design, which is N - k - b + 1 where treatments and days hang together.
 */
export interface AdditiveModel {
	readonly units: readonly Unit[];
	readonly treatments: readonly string[];
	readonly days: readonly string[];
	/** units x columns, row by row; columns: treatments, then all days but the first. */
	readonly design: Float64Array;
	readonly columns: number;
	/** Pseudo-inverse of design' design, by its rows. */
	readonly inverse: readonly Float64Array[];
	readonly degreesOfFreedom: number;
	/** What is left of each unit's mean, mg/g. */
	readonly residuals: Float64Array;
	/** The share of each unit's own value in what is fitted to it; a unit leaves 1 less this to judge scatter by. */
	readonly leverages: Float64Array;
}

export function distinctDays(units: readonly Unit[]): string[] {
	return [...new Set(units.flatMap((u) => [...u.days.keys()]))].sort();
}

export function fitAdditiveModel(units: readonly Unit[]): AdditiveModel {
	const treatments = [...new Set(units.map((u) => u.treatment))];
	const days = distinctDays(units);
	const columns = treatments.length + Math.max(0, days.length - 1);
	const design = new Float64Array(units.length * columns);
	units.forEach((u, row) => {
		design[row * columns + treatments.indexOf(u.treatment)] = 1;
		for (const [day, share] of u.days) {
			const k = days.indexOf(day);
			if (k > 0) design[row * columns + treatments.length + k - 1] = share;
		}
	});
	const gram = new Float64Array(columns * columns);
	for (let row = 0; row < units.length; row++)
		for (let i = 0; i < columns; i++) {
			const x = design[row * columns + i];
			if (x === 0) continue;
			for (let j = 0; j < columns; j++)
				gram[i * columns + j] += x * design[row * columns + j];
		}
	const { inverse, rank } = pseudoInverse(rowsOf(gram, columns, columns));
	const shape = { units, treatments, days, design, columns, inverse };
	return {
		...shape,
		degreesOfFreedom: units.length - rank,
		residuals: residualsOf(shape),
		leverages: leveragesOf(shape),
	};
}

/** The same model for the same units with other means. */
export function refitted(
	model: AdditiveModel,
	units: readonly Unit[],
): AdditiveModel {
	const shape = { ...model, units };
	return { ...shape, residuals: residualsOf(shape) };
}

type Shape = Omit<
	AdditiveModel,
	"degreesOfFreedom" | "residuals" | "leverages"
>;

function leveragesOf(model: Shape): Float64Array {
	const { units, design, columns } = model;
	return Float64Array.from(units, (_, row) => {
		const own = design.subarray(row * columns, (row + 1) * columns);
		return dot(own, timesInverse(model, own));
	});
}

function residualsOf(model: Shape): Float64Array {
	const { units, design, columns } = model;
	// The grand mean is in every design of treatments: taking it off first keeps the digits of small differences.
	const grand = units.reduce((s, u) => s + u.mean, 0) / units.length;
	const moments = new Float64Array(columns);
	units.forEach((u, row) => {
		for (let j = 0; j < columns; j++)
			moments[j] += design[row * columns + j] * (u.mean - grand);
	});
	const effects = timesInverse(model, moments);
	return Float64Array.from(units, (u, row) => {
		let residual = u.mean - grand;
		for (let j = 0; j < columns; j++)
			residual -= design[row * columns + j] * effects[j];
		return residual;
	});
}

function timesInverse(model: Shape, vector: Float64Array): Float64Array {
	return Float64Array.from(model.inverse, (row) => dot(row, vector));
}

/** The weights that the units' means get in the least-squares estimate of a combination of effects, if the design can tell it at all. */
export type EstimateWeights =
	| { readonly estimable: true; readonly weights: Float64Array }
	| { readonly estimable: false };

/** @param combination one coefficient for each column of the design */
export function weightsOf(
	model: AdditiveModel,
	combination: Float64Array,
): EstimateWeights {
	const { units, design, columns } = model;
	const solved = timesInverse(model, combination);
	const weights = Float64Array.from(units, (_, row) => {
		let w = 0;
		for (let j = 0; j < columns; j++)
			w += design[row * columns + j] * solved[j];
		return w;
	});
	// Estimable exactly if the weights give the combination back: design' weights = combination.
	for (let j = 0; j < columns; j++) {
		let back = 0;
		for (let row = 0; row < units.length; row++)
			back += design[row * columns + j] * weights[row];
		if (Math.abs(back - combination[j]) > 1e-7) return { estimable: false };
	}
	return { estimable: true, weights };
}
