import {
	refuse,
	requireConfidence,
	requireDegreesOfFreedom,
	requireErrorRate,
	requireFinite,
} from "./checks";
import type { Alternative } from "./multivariate-t";
import { noncentralTCdf, noncentralTUpperTail } from "./noncentral-t";
import { bracketedRoot } from "./root";
import { studentTQuantile } from "./student-t";

/** A planned comparison of two groups of equal size with one common standard deviation. */
export interface TwoGroupPlan {
	/** Standard deviation within groups, in the unit of the difference; above 0. */
	readonly standardDeviation: number;
	/** Of the test, above 0 and below 1: 0.95 means an error rate of 0.05. */
	readonly confidence: number;
	/** Whether one direction or both count. */
	readonly alternative: Alternative;
}

/**
 * Probability that a t statistic with this noncentrality (true difference over its standard error) passes the critical
 * value: in either direction when two-sided, the wrong one included, else in that of the alternative. With a
 * simultaneous critical value it is the power of one comparison among several.
 */
export function powerOfContrast(
	noncentrality: number,
	degreesOfFreedom: number,
	criticalValue: number,
	alternative: Alternative,
): number {
	const above = (): number =>
		noncentralTUpperTail(criticalValue, degreesOfFreedom, noncentrality);
	const below = (): number =>
		noncentralTCdf(-criticalValue, degreesOfFreedom, noncentrality);
	if (alternative === "greater") return above();
	if (alternative === "less") return below();
	return Math.min(1, above() + below());
}

/** Power of the pooled t test for a true difference, with so many replicates in each group (more than 1, fractions allowed for planning). */
export function tTestPower(
	plan: TwoGroupPlan,
	difference: number,
	replicates: number,
): number {
	requirePlan(plan);
	requireFinite("the difference of a power of a t test", difference);
	if (!(replicates > 1)) {
		refuse(
			"too-few-replicates",
			`${replicates} replicates in each group`,
			"more than 1",
			"One observation in each group shows no scatter.",
		);
	}
	const degreesOfFreedom = 2 * replicates - 2;
	requireDegreesOfFreedom("the power of a t test", degreesOfFreedom);
	const sides = plan.alternative === "two-sided" ? 2 : 1;
	const criticalValue = -studentTQuantile(
		(1 - plan.confidence) / sides,
		degreesOfFreedom,
	);
	const noncentrality =
		(difference / plan.standardDeviation) * Math.sqrt(replicates / 2);
	return powerOfContrast(
		noncentrality,
		degreesOfFreedom,
		criticalValue,
		plan.alternative,
	);
}

const MOST_REPLICATES = 1e6;

/**
 * Replicates needed in each group to find a true difference with the power asked for, as a fraction to be rounded up;
 * never less than 2. Throws where a million would not do.
 */
export function replicatesForPower(
	plan: TwoGroupPlan,
	difference: number,
	power: number,
): number {
	requirePlan(plan);
	requireErrorRate("the power", power);
	const shortfall = (replicates: number): number =>
		tTestPower(plan, difference, replicates) - power;
	if (shortfall(2) >= 0) return 2;
	let most = 4;
	while (shortfall(most) < 0) {
		most *= 2;
		if (most > MOST_REPLICATES) {
			refuse(
				"too-many-replicates",
				`a difference of ${difference} against a standard deviation of ${plan.standardDeviation}, for which a power of ${power} takes more than a million replicates`,
				"a larger difference, in the direction of the alternative",
				"Reduce the scatter, or look for a larger difference.",
			);
		}
	}
	return bracketedRoot(shortfall, most === 4 ? 2 : most / 2, most, 1e-10);
}

/** Size of the true difference that is found with the power asked for, with so many replicates in each group. */
export function detectableDifference(
	plan: TwoGroupPlan,
	replicates: number,
	power: number,
): number {
	requirePlan(plan);
	requireErrorRate("the power", power);
	if (power <= 1 - plan.confidence) {
		refuse(
			"power-too-small",
			`a power of ${power} beside a confidence of ${plan.confidence}`,
			"a power above 1 less the confidence, the chance of a false alarm",
			"A power of 0.8 is usual.",
		);
	}
	const sign = plan.alternative === "less" ? -1 : 1;
	const shortfall = (size: number): number =>
		tTestPower(plan, sign * size * plan.standardDeviation, replicates) - power;
	let most = 1;
	while (shortfall(most) < 0) most *= 2;
	return plan.standardDeviation * bracketedRoot(shortfall, 0, most, 1e-12);
}

function requirePlan({ standardDeviation, confidence }: TwoGroupPlan): void {
	requireConfidence(confidence);
	if (!(standardDeviation > 0 && Number.isFinite(standardDeviation))) {
		refuse(
			"standard-deviation",
			`a standard deviation of ${standardDeviation} for the power of a t test`,
			"a finite number above 0",
			"Give the standard deviation within groups, in the unit of the difference.",
		);
	}
}
