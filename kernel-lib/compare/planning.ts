import { chiSquareQuantile, simultaneousCriticalValue } from "../stats";
import { once } from "./once";
import type { Pair } from "./pairs";
import type { SpreadRule } from "./settings";
import { significanceLevel } from "./significance";
import { type GroupSpread, pooledShareOf, scatterOf } from "./spread";

/** What a plan needs to know of a trial; all in mg/g or its square. */
export interface Plan {
	/** The pairs whose intervals are to hold together. */
	readonly pairs: readonly Pair[];
	/** Days in the model. */
	readonly days: number;
	/** Spread between units to reckon with. */
	readonly deviation: number;
	/** Variance of each pair's difference from shared inputs, which replicates do not shrink. */
	readonly sharedVariances: readonly number[];
	readonly confidence: number;
	readonly spread: SpreadRule;
}

/** More units a treatment than anybody would make. */
export const mostUnits = 1000;

/** Confidence that the true spread is not above the limit that plans reckon with. */
const spreadConfidence = 0.8;

/** Upper confidence limit (80 %) of a standard deviation that was estimated with few degrees of freedom: s sqrt(df / chi-square quantile of 0.2). */
export function spreadToReckonWith(
	deviation: number,
	degreesOfFreedom: number,
): number {
	return (
		deviation *
		Math.sqrt(
			degreesOfFreedom /
				chiSquareQuantile(1 - spreadConfidence, degreesOfFreedom),
		)
	);
}

/** Critical value as if the differences were uncorrelated: never too small, whatever their correlation (Sidak's inequality, 1967), and quick. */
export function safeCriticalValue(
	count: number,
	degreesOfFreedom: number,
	confidence: number,
): number {
	const uncorrelated = Array.from({ length: count }, (_, i) =>
		Array.from({ length: count }, (_, j) => (i === j ? 1 : 0)),
	);
	return simultaneousCriticalValue(
		uncorrelated,
		degreesOfFreedom,
		significanceLevel(confidence),
		"two-sided",
	);
}

/** Degrees of freedom of a difference between two of several groups of n units that scatter alike, each with a variance of its own drawn to the pooled one. */
function degreesOfAlike(
	groups: number,
	n: number,
	pooled: number,
	rule: SpreadRule,
): number {
	const each = pooled / groups;
	const alike: GroupSpread = {
		ownVariance: 1,
		degreesOfFreedom: each,
		pooledShare: pooledShareOf(rule, each),
		variance: 1,
	};
	const { variance, denominator } = scatterOf(
		{
			deviation: 1,
			degreesOfFreedom: pooled,
			fromReadings: false,
			groups: new Map(
				Array.from({ length: groups }, (_, i) => [String(i), alike]),
			),
		},
		new Map([
			["0", 1 / n],
			["1", 1 / n],
		]),
	);
	return variance ** 2 / denominator;
}

/** Full widths of the simultaneous intervals with n units in every group. */
function fullWidths(plan: Plan, n: number): number[] {
	const { pairs, deviation, sharedVariances, days, confidence } = plan;
	const groups = new Set(pairs.flatMap((p) => [p.treatment, p.control])).size;
	const pooled = groups * (n - 1) - Math.max(0, days - 1);
	if (pooled < 1) return pairs.map(() => Number.POSITIVE_INFINITY);
	const d = safeCriticalValue(
		pairs.length,
		degreesOfAlike(groups, n, pooled, plan.spread),
		confidence,
	);
	return sharedVariances.map(
		(shared) => 2 * d * Math.sqrt((2 * deviation ** 2) / n + shared),
	);
}

/**
 * The fewest units a group with which the interval of a pair (by its place in the plan) cannot but decide at a margin: a full width of at most the margin either leaves out zero or lies inside plus or minus the
 * margin, whatever the difference is. The difference just observed plays no part. Infinity where `mostUnits` would not do.
 */
export function unitsThatDecide(
	plan: Plan,
): (pair: number, margin: number) => number {
	const widths = once((n) => fullWidths(plan, n));
	return (pair, margin) => {
		const decides = (n: number): boolean => widths(n)[pair] <= margin;
		let enough = 2;
		while (!decides(enough)) {
			if (enough >= mostUnits) return Number.POSITIVE_INFINITY;
			enough = Math.min(mostUnits, enough * 2);
		}
		let tooFew = Math.floor(enough / 2);
		while (enough - tooFew > 1) {
			const middle = Math.floor((enough + tooFew) / 2);
			if (decides(middle)) enough = middle;
			else tooFew = middle;
		}
		return enough;
	};
}
