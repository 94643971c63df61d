import { mean, sumOfSquares } from "./descriptive";
import {
	type MeanDifference,
	type MeanPair,
	simultaneousDifferences,
} from "./simultaneous-differences";

/** "not available" where no group has two observations, or none of them differ. */
export type ManyToOne =
	| {
			readonly is: "differences";
			readonly degreesOfFreedom: number;
			readonly pooledStandardDeviation: number;
			readonly differences: readonly MeanDifference[];
	  }
	| { readonly is: "not available" };

/**
 * Dunnett's comparison (1955, J. Am. Stat. Assoc. 50, 1096): means of groups against a control, with the standard
 * deviation pooled over all of them.
 * @example
 * stats.manyToOne([[1, 2, 3], [4, 5, 6]], [{ treated: 1, control: 0 }], 0.95).is // => "differences"
 */
export function manyToOne(
	groups: readonly (readonly number[])[],
	pairs: readonly MeanPair[],
	confidence: number,
): ManyToOne {
	const observations = groups.reduce((n, group) => n + group.length, 0);
	const degreesOfFreedom = observations - groups.length;
	const square =
		groups.reduce((sum, group) => sum + sumOfSquares(group), 0) /
		degreesOfFreedom;
	if (!(degreesOfFreedom > 0 && square > 0)) return { is: "not available" };
	return {
		is: "differences",
		degreesOfFreedom,
		pooledStandardDeviation: Math.sqrt(square),
		differences: simultaneousDifferences(
			groups.map((group) => ({
				mean: mean(group),
				variance: square / group.length,
			})),
			pairs,
			degreesOfFreedom,
			confidence,
		),
	};
}
