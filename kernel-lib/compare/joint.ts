import {
	type CorrelationMatrix,
	simultaneousAdjustedP,
	simultaneousCriticalValue,
} from "../stats";
import type { Pair } from "./pairs";
import { significanceLevel } from "./significance";
import type { Simultaneous } from "./verdict";

/** What holds for all differences of a comparison together. */
export interface Joint {
	readonly correlation: CorrelationMatrix;
	/** Smallest of the differences' own, so that no interval is too short. */
	readonly degreesOfFreedom: number;
	/** Half-width of each simultaneous interval over its standard error; two-sided; 0 for no differences at all. */
	readonly criticalValue: number;
}

/** Correlation of the differences from their covariance. Every variance must be above zero. */
export function correlationOf(
	covariance: readonly (readonly number[])[],
): number[][] {
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
 * and shared inputs give the differences.
 *
 * @param covariance of the differences
 * @param degreesOfFreedom of each difference
 */
export function jointOf(
	covariance: readonly (readonly number[])[],
	degreesOfFreedom: readonly number[],
	confidence: number,
): Joint {
	const correlation = correlationOf(covariance);
	const fewest = Math.min(Number.POSITIVE_INFINITY, ...degreesOfFreedom);
	return {
		correlation,
		degreesOfFreedom: fewest,
		criticalValue:
			correlation.length === 0
				? 0
				: simultaneousCriticalValue(
						correlation,
						fewest,
						significanceLevel(confidence),
						"two-sided",
					),
	};
}

/** Statistics beyond this have a p below 0.0001 at any degrees of freedom; the integral takes longer the farther out it is asked for. */
const farthest = 1e4;

/** p of each difference, adjusted for all of them: how often the largest |t| of the family would reach this one by chance. */
export function adjustedPs(
	joint: Joint,
	t: readonly number[],
): readonly number[] {
	return t.length === 0
		? []
		: Array.from(
				simultaneousAdjustedP(
					t.map((v) => Math.max(-farthest, Math.min(farthest, v))),
					joint.correlation,
					joint.degreesOfFreedom,
				),
			);
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
		distribution: Number.isFinite(joint.degreesOfFreedom)
			? { is: "t", degreesOfFreedom: joint.degreesOfFreedom }
			: { is: "normal" },
		criticalValue: joint.criticalValue,
	};
}
