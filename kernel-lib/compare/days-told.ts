import { dot, inverseOfPositiveDefinite } from "../linear";
import { mean } from "../stats";
import type { CurveOnDays } from "./curve-days";
import { type Spread, varianceOf } from "./spread";

/** Before anything is measured a day may multiply uptakes by anything up to about 0 or 2. That bounds a factor that flasks and soaks happen to tell nothing of, and weighs nothing beside those that do. Our decision. */
const widest = 1;

/** The curves of each treatment. */
export type Treatments = readonly (readonly [string, readonly CurveOnDays[]])[];

/** The days as far as they are told, given how far soaks lie apart. */
export interface Told {
	/** One for each day but the last: its factor less 1. */
	readonly numbers: Float64Array;
	/** Their covariance. */
	readonly inverse: readonly Float64Array[];
	/** By treatment, what its soaks know of the numbers by how they differ. */
	readonly between: ReadonlyMap<string, readonly Float64Array[]>;
	/** The numbers that something would feign, by what it makes of the flasks beside their curves and of the uptakes on these. */
	readonly feigned: (
		towards: (c: CurveOnDays) => Float64Array,
		uptake: (c: CurveOnDays) => number,
	) => Float64Array;
}

/** Generalised least squares, the curves' parameters and the level of each treatment taken out. */
export function toldBy(
	treatments: Treatments,
	soakSpread: Spread,
	size: number,
): Told {
	const weightOf = (t: string, own: readonly CurveOnDays[]): number => {
		const variance = varianceOf(soakSpread, t);
		return own.length > 1 && variance > 0 ? 1 / variance : 0;
	};
	const between = new Map(
		treatments.map(([t, own]) => {
			const apart = centred(own.map((c) => c.followed));
			return [t, products(apart, weightOf(t, own))];
		}),
	);
	const information = Array.from({ length: size }, (_, i) =>
		Float64Array.from({ length: size }, (_, j) =>
			[
				...treatments.flatMap(([, own]) => own.map((c) => c.information)),
				...between.values(),
			].reduce((sum, q) => sum + q[i][j], i === j ? 1 / widest ** 2 : 0),
		),
	);
	const found = inverseOfPositiveDefinite(information, 0);
	if (found.is !== "inverse")
		throw new Error("information on days that is not positive definite");
	const { inverse } = found;
	const feigned: Told["feigned"] = (towards, uptake) => {
		const sum = new Float64Array(size);
		for (const [t, own] of treatments) {
			const apart = centred(own.map((c) => c.followed));
			const middle = mean(own.map(uptake));
			const weight = weightOf(t, own);
			own.forEach((c, k) => {
				const inside = towards(c);
				for (let j = 0; j < size; j++)
					sum[j] += inside[j] + weight * apart[k][j] * (uptake(c) - middle);
			});
		}
		return Float64Array.from(inverse, (row) => dot(row, sum));
	};
	return {
		numbers: feigned(
			(c) => c.towards,
			(c) => c.estimate.uptake,
		),
		inverse,
		between,
		feigned,
	};
}

/** Vectors less their mean. */
function centred(vectors: readonly Float64Array[]): Float64Array[] {
	const middle = vectors[0].map((_, j) => mean(vectors.map((v) => v[j])));
	return vectors.map((v) => v.map((x, j) => x - middle[j]));
}

/** Sum of the outer products of vectors with themselves, times a weight. */
function products(
	vectors: readonly Float64Array[],
	weight: number,
): Float64Array[] {
	return Array.from(vectors[0], (_, i) =>
		vectors[0].map(
			(_, j) => weight * vectors.reduce((sum, v) => sum + v[i] * v[j], 0),
		),
	);
}

/** Degrees of freedom that the numbers take from what knows so much of them. */
export function share(
	information: readonly Float64Array[],
	inverse: readonly Float64Array[],
): number {
	return information.reduce((sum, row, i) => sum + dot(row, inverse[i]), 0);
}
