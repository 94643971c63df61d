import {
	type CorrelationMatrix,
	type SimultaneousFamily,
	simultaneousFamily,
} from "../stats";
import { finite } from "./finite";
import { once } from "./once";
import type { Pair } from "./pairs";
import { significanceLevel } from "./significance";
import type { Simultaneous } from "./verdict";

/** What holds for all differences of a comparison together. */
export interface Joint {
	readonly simultaneous: SimultaneousFamily;
	/** Of each difference; Infinity where nothing was estimated from scatter. */
	readonly degreesOfFreedom: readonly number[];
	/** Half-width of each simultaneous interval over its standard error; two-sided. */
	readonly criticalValues: readonly number[];
}

/** Correlation of the differences from their covariance. Every variance must be above zero. */
function correlationOf(
	covariance: readonly (readonly number[])[],
): CorrelationMatrix {
	return covariance.map((row, i) =>
		row.map((c, j) =>
			i === j
				? 1
				: Math.max(
						-1,
						Math.min(1, c / Math.sqrt(covariance[i][i] * covariance[j][j])),
					),
		),
	);
}

/**
 * Critical value of Dunnett's kind for any correlation: the multivariate t (normal, where the degrees of freedom are infinite) with the correlation that common units
 * and shared inputs give the differences, for each difference with its own degrees of freedom (Hasler and Hothorn 2008, from memory).
 *
 * @param covariance of the differences
 * @param degreesOfFreedom of each difference
 */
export function jointOf(
	covariance: readonly (readonly number[])[],
	degreesOfFreedom: readonly number[],
	confidence: number,
): Joint {
	const simultaneous = simultaneousFamily(
		correlationOf(covariance),
		"two-sided",
	);
	const criticalValueAt = once((df) =>
		simultaneous.criticalValue(df, significanceLevel(confidence)),
	);
	return {
		simultaneous,
		degreesOfFreedom,
		criticalValues: degreesOfFreedom.map((df) => criticalValueAt(df)),
	};
}

/** Statistics beyond this have a p below 0.0001 at any degrees of freedom; the integral takes longer the farther out it is asked for. */
const farthest = 1e4;

/** p of each difference, adjusted for all of them: how often the largest |t| of the family would reach this one by chance. */
export function adjustedPs(
	joint: Joint,
	t: readonly number[],
): readonly number[] {
	const bounded = t.map((v) => Math.max(-farthest, Math.min(farthest, v)));
	return [...joint.simultaneous.adjustedPs(bounded, joint.degreesOfFreedom)];
}

/** What a comparison reports of its simultaneous intervals. */
export function simultaneousOf({
	joint,
	family,
}: {
	readonly joint: Joint;
	readonly family: readonly { readonly pair: Pair }[];
}): Simultaneous {
	return {
		pairs: family.map((f) => f.pair),
		degreesOfFreedom: joint.degreesOfFreedom.map(finite),
		criticalValues: joint.criticalValues,
		are: joint.simultaneous.are,
	};
}
