import { standardDeviationUpperLimit } from "../stats";
import { jointOf } from "./joint";
import type { Pair } from "./pairs";

/** What a plan needs to know of a trial; all in mg/g or its square. */
export interface Plan {
	/** The pairs whose intervals are to hold together. */
	readonly pairs: readonly Pair[];
	/** Days in the model. */
	readonly days: number;
	/** Spread between units to reckon with. */
	readonly deviation: number;
	/** Covariance of the pairs' differences from shared inputs, which replicates do not shrink. */
	readonly sharedCovariance: readonly (readonly number[])[];
	readonly margin: number;
	readonly alpha: number;
}

/** More units a treatment than anybody would make. */
export const mostUnits = 1000;

/** Confidence that the true spread is not above the limit that plans reckon with. */
const spreadConfidence = 0.8;

/** Upper confidence limit (80 %) of a standard deviation that was estimated with few degrees of freedom. */
export function spreadToReckonWith(
	deviation: number,
	degreesOfFreedom: number,
): number {
	return standardDeviationUpperLimit(
		deviation,
		degreesOfFreedom,
		spreadConfidence,
	);
}

function same(a: string, b: string): number {
	return a === b ? 1 : 0;
}

/** Full widths of the simultaneous intervals with n units in every group. */
function fullWidths(plan: Plan, n: number): number[] {
	const { pairs, deviation, sharedCovariance } = plan;
	const groups = new Set(pairs.flatMap((p) => [p.treatment, p.control])).size;
	const degreesOfFreedom = groups * (n - 1) - Math.max(0, plan.days - 1);
	if (degreesOfFreedom < 1) return pairs.map(() => Number.POSITIVE_INFINITY);
	const covariance = pairs.map((a, i) =>
		pairs.map(
			(b, j) =>
				(deviation ** 2 / n) *
					(same(a.treatment, b.treatment) +
						same(a.control, b.control) -
						same(a.treatment, b.control) -
						same(a.control, b.treatment)) +
				sharedCovariance[i][j],
		),
	);
	const { criticalValue } = jointOf(
		covariance,
		pairs.map(() => degreesOfFreedom),
		plan.alpha,
	);
	return covariance.map((row, i) => 2 * criticalValue * Math.sqrt(row[i]));
}

/**
 * For every pair the fewest units a group with which its interval cannot but decide: a full width of at most the margin either leaves out zero or lies inside plus or minus the
 * margin, whatever the difference is. The difference just observed plays no part. Infinity where `mostUnits` would not do.
 */
export function unitsThatDecide(plan: Plan): number[] {
	const known = new Map<number, number[]>();
	const widths = (n: number): number[] => {
		const before = known.get(n);
		if (before) return before;
		const found = fullWidths(plan, n);
		known.set(n, found);
		return found;
	};
	return plan.pairs.map((_, i) => {
		const decides = (n: number): boolean => widths(n)[i] <= plan.margin;
		let enough = 2;
		while (!decides(enough)) {
			if (enough >= mostUnits) return Number.POSITIVE_INFINITY;
			enough = Math.min(mostUnits, enough * 2);
		}
		let tooFew = enough === 2 ? 1 : Math.floor(enough / 2);
		while (enough - tooFew > 1) {
			const middle = Math.floor((enough + tooFew) / 2);
			if (decides(middle)) enough = middle;
			else tooFew = middle;
		}
		return enough;
	});
}
