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
	/** Of each unit, the columns in which it has an entry, with the entry; columns: treatments, then all days but the first. */
	readonly design: readonly Row[];
	readonly columns: number;
	/** Pseudo-inverse of design' design, by its rows. */
	readonly inverse: readonly Float64Array[];
	readonly degreesOfFreedom: number;
	/** What is left of each unit's mean, mg/g. */
	readonly residuals: Float64Array;
	/** The share of each unit's own value in what is fitted to it; a unit leaves 1 less this to judge scatter by. */
	readonly leverages: Float64Array;
}

type Row = readonly (readonly [column: number, entry: number])[];

export function distinctDays(units: readonly Unit[]): string[] {
	return [...new Set(units.flatMap((u) => [...u.days.keys()]))].sort();
}

export function fitAdditiveModel(units: readonly Unit[]): AdditiveModel {
	const treatments = [...new Set(units.map((u) => u.treatment))];
	const days = distinctDays(units);
	const columns = treatments.length + Math.max(0, days.length - 1);
	const columnOf = new Map(treatments.map((t, column) => [t, column]));
	const design = units.map(
		(u): Row => [
			[columnOf.get(u.treatment) as number, 1],
			...[...u.days].flatMap(([day, share]): Row => {
				const k = days.indexOf(day);
				return k > 0 ? [[treatments.length + k - 1, share]] : [];
			}),
		],
	);
	const gram = new Float64Array(columns * columns);
	for (const row of design)
		for (const [i, x] of row)
			for (const [j, z] of row) gram[i * columns + j] += x * z;
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

function leveragesOf({ design, inverse }: Shape): Float64Array {
	return Float64Array.from(design, (row) =>
		row.reduce(
			(sum, [i, x]) =>
				row.reduce((s, [j, z]) => s + x * z * inverse[i][j], sum),
			0,
		),
	);
}

function residualsOf(model: Shape): Float64Array {
	const { units, design, columns } = model;
	// The grand mean is in every design of treatments: taking it off first keeps the digits of small differences.
	const grand = units.reduce((s, u) => s + u.mean, 0) / units.length;
	const moments = new Float64Array(columns);
	units.forEach((u, i) => {
		for (const [j, x] of design[i]) moments[j] += x * (u.mean - grand);
	});
	const effects = timesInverse(model, moments);
	return Float64Array.from(
		units,
		(u, i) => u.mean - grand - along(design[i], effects),
	);
}

function timesInverse(model: Shape, vector: Float64Array): Float64Array {
	return Float64Array.from(model.inverse, (row) => dot(row, vector));
}

function along(row: Row, vector: Float64Array): number {
	return row.reduce((sum, [j, x]) => sum + x * vector[j], 0);
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
	const { design, columns } = model;
	// The inverse is symmetric, and a combination has few entries.
	const solved = new Float64Array(columns);
	combination.forEach((c, j) => {
		if (c !== 0)
			model.inverse[j].forEach((x, i) => {
				solved[i] += c * x;
			});
	});
	const weights = Float64Array.from(design, (row) => along(row, solved));
	// Estimable exactly if the weights give the combination back: design' weights = combination.
	const back = new Float64Array(columns);
	design.forEach((row, i) => {
		for (const [j, x] of row) back[j] += x * weights[i];
	});
	return back.every((b, j) => Math.abs(b - combination[j]) <= 1e-7)
		? { estimable: true, weights }
		: { estimable: false };
}
