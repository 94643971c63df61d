import { mean, sumOfSquares } from "./descriptive";
import { bracketedRoot } from "./root";
import {
	type MeanDifference,
	type MeanPair,
	simultaneousDifferences,
} from "./simultaneous-differences";

/** "not available" where no unit has two observations, no group two units, or repeated observations agree exactly. */
export type NestedModel =
	| {
			readonly is: "fitted";
			/** Variance between the units of a group, and of observations within a unit. */
			readonly varianceBetween: number;
			readonly varianceWithin: number;
			/** Units less groups. */
			readonly degreesOfFreedom: number;
			readonly differences: readonly MeanDifference[];
	  }
	| { readonly is: "not available" };

interface Unit {
	readonly group: number;
	readonly size: number;
	readonly mean: number;
}

interface Layout {
	readonly units: readonly Unit[];
	readonly groups: number;
	readonly observations: number;
	/** Sum of squares of observations about the means of their units. */
	readonly within: number;
}

/** Beyond this ratio of variances the observations of a unit agree exactly, for all that numbers can tell. */
const LARGEST_RATIO = 1e10;

/**
 * Mixed model of observations within units within groups: observation = mean of its group + effect of its unit + error, both normal, fitted by restricted maximum likelihood; any sizes. The
 * differences have simultaneous intervals with as many degrees of freedom as there are units less groups.
 *
 * @param groups the observations of each unit of each group
 */
export function nestedModel(
	groups: readonly (readonly (readonly number[])[])[],
	pairs: readonly MeanPair[],
	confidence: number,
): NestedModel {
	const layout = layoutOf(groups);
	const degreesOfFreedom = layout.units.length - layout.groups;
	const repeats = layout.observations - layout.units.length;
	if (!(degreesOfFreedom > 0 && repeats > 0 && layout.within > 0))
		return { is: "not available" };
	const ratio = likeliestRatio(layout);
	if (ratio >= LARGEST_RATIO) return { is: "not available" };
	const { means, information, squares } = at(layout, ratio);
	const varianceWithin = squares / (layout.observations - layout.groups);
	return {
		is: "fitted",
		varianceBetween: ratio * varianceWithin,
		varianceWithin,
		degreesOfFreedom,
		differences: simultaneousDifferences(
			means.map((value, g) => ({
				mean: value,
				variance: varianceWithin / information[g],
			})),
			pairs,
			degreesOfFreedom,
			confidence,
		),
	};
}

function layoutOf(groups: readonly (readonly (readonly number[])[])[]): Layout {
	const all = groups.flat();
	return {
		units: groups.flatMap((units, group) =>
			units.map((u) => ({ group, size: u.length, mean: mean(u) })),
		),
		groups: groups.length,
		observations: all.reduce((n, u) => n + u.length, 0),
		within: all.reduce((sum, u) => sum + sumOfSquares(u), 0),
	};
}

/** Means of the groups for a ratio of the variance between to that within, their information in units of 1 / variance within, and the weighted sum of squares. */
function at(
	layout: Layout,
	ratio: number,
): {
	readonly weights: readonly number[];
	readonly means: readonly number[];
	readonly information: readonly number[];
	readonly squares: number;
} {
	const weights = layout.units.map(({ size }) => size / (1 + size * ratio));
	const information = new Array<number>(layout.groups).fill(0);
	const sums = new Array<number>(layout.groups).fill(0);
	layout.units.forEach((u, i) => {
		information[u.group] += weights[i];
		sums[u.group] += weights[i] * u.mean;
	});
	const means = sums.map((sum, g) => sum / information[g]);
	const squares = layout.units.reduce(
		(sum, u, i) => sum + weights[i] * (u.mean - means[u.group]) ** 2,
		layout.within,
	);
	return { weights, means, information, squares };
}

/** Slope of -2 ln(restricted likelihood) along the ratio of variances. */
function slope(layout: Layout, ratio: number): number {
	const { weights, means, information, squares } = at(layout, ratio);
	const squared = new Array<number>(layout.groups).fill(0);
	let scatter = 0;
	layout.units.forEach((u, i) => {
		squared[u.group] += weights[i] ** 2;
		scatter += weights[i] ** 2 * (u.mean - means[u.group]) ** 2;
	});
	return (
		weights.reduce((a, b) => a + b, 0) -
		squared.reduce((sum, s, g) => sum + s / information[g], 0) -
		((layout.observations - layout.groups) * scatter) / squares
	);
}

function likeliestRatio(layout: Layout): number {
	if (slope(layout, 0) >= 0) return 0;
	let beyond = 1;
	while (slope(layout, beyond) < 0 && beyond < LARGEST_RATIO) beyond *= 4;
	return beyond >= LARGEST_RATIO
		? LARGEST_RATIO
		: bracketedRoot((r) => slope(layout, r), 0, beyond, 1e-12);
}
