import {
	requireConfidence,
	requireDegreesOfFreedom,
	requireFinite,
} from "./checks";
import { chiSquareQuantile } from "./chi-square";

/** One independent component of a combined standard uncertainty: its contribution to it, and its degrees of freedom (Infinity if exact). */
export interface UncertaintyComponent {
	readonly uncertainty: number;
	readonly degreesOfFreedom: number;
}

/**
 * Effective degrees of freedom of a combined standard uncertainty, Welch-Satterthwaite (JCGM 100:2008, G.2b); for
 * independent components only. Infinity when every component is exact or zero.
 */
export function welchSatterthwaite(
	components: readonly UncertaintyComponent[],
): number {
	let variance = 0;
	let sum = 0;
	let largest = 0;
	for (const { uncertainty } of components)
		largest = Math.max(largest, Math.abs(uncertainty));
	for (const { uncertainty, degreesOfFreedom } of components) {
		requireFinite(
			"an uncertainty in Welch and Satterthwaite's formula",
			uncertainty,
		);
		requireDegreesOfFreedom(
			"Welch and Satterthwaite's formula",
			degreesOfFreedom,
		);
		// relative to the largest, so that fourth powers neither overflow nor vanish
		const share = largest === 0 ? 0 : (uncertainty / largest) ** 2;
		variance += share;
		sum += (share * share) / degreesOfFreedom;
	}
	return sum === 0 ? Number.POSITIVE_INFINITY : (variance * variance) / sum;
}

/** Upper confidence limit of a standard deviation estimated from normal data: s sqrt(df / chi-square quantile(1 - confidence)). One-sided; confidence 0.95 if not given. */
export function standardDeviationUpperLimit(
	standardDeviation: number,
	degreesOfFreedom: number,
	confidence = 0.95,
): number {
	requireFinite("the limit of a standard deviation", standardDeviation);
	requireDegreesOfFreedom(
		"the limit of a standard deviation",
		degreesOfFreedom,
	);
	requireConfidence(confidence);
	if (degreesOfFreedom === Number.POSITIVE_INFINITY) return standardDeviation;
	return (
		standardDeviation *
		Math.sqrt(
			degreesOfFreedom / chiSquareQuantile(1 - confidence, degreesOfFreedom),
		)
	);
}
