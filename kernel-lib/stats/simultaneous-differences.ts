import { requireConfidence } from "./checks";
import {
	simultaneousAdjustedP,
	simultaneousCriticalValue,
} from "./multivariate-t";

/** A mean minus another, with an interval that holds for all differences together. */
export interface MeanDifference {
	readonly estimate: number;
	readonly standardError: number;
	readonly t: number;
	/** For the number of differences; two-sided. */
	readonly adjustedP: number;
	readonly low: number;
	readonly high: number;
}

/** Which mean is compared with which, by their places in the list of groups. */
export interface MeanPair {
	readonly treated: number;
	readonly control: number;
}

export interface EstimatedMean {
	readonly mean: number;
	readonly variance: number;
}

/**
 * Differences of independent means with simultaneous intervals by the multivariate t (Dunnett's, where all pairs share
 * one control); the correlation is that of the means in common.
 *
 * @param means with their estimated variances, none of them 0
 */
export function simultaneousDifferences(
	means: readonly EstimatedMean[],
	pairs: readonly MeanPair[],
	degreesOfFreedom: number,
	confidence: number,
): MeanDifference[] {
	requireConfidence(confidence);
	if (pairs.length === 0) return [];
	const side = (pair: MeanPair, group: number): number =>
		(pair.treated === group ? 1 : 0) - (pair.control === group ? 1 : 0);
	const covariance = pairs.map((a) =>
		pairs.map((b) =>
			means.reduce(
				(sum, { variance }, g) => sum + side(a, g) * side(b, g) * variance,
				0,
			),
		),
	);
	const errors = covariance.map((row, i) => Math.sqrt(row[i]));
	const correlation = covariance.map((row, i) =>
		row.map((c, j) => (i === j ? 1 : c / (errors[i] * errors[j]))),
	);
	const estimates = pairs.map(
		({ treated, control }) => means[treated].mean - means[control].mean,
	);
	const t = estimates.map((estimate, i) => estimate / errors[i]);
	const p = simultaneousAdjustedP(t, correlation, degreesOfFreedom);
	const width = simultaneousCriticalValue(
		correlation,
		degreesOfFreedom,
		// 1 - 0.95 is 0.050000000000000044 in binary
		Number((1 - confidence).toPrecision(12)),
		"two-sided",
	);
	return estimates.map((estimate, i) => ({
		estimate,
		standardError: errors[i],
		t: t[i],
		adjustedP: p[i],
		low: estimate - width * errors[i],
		high: estimate + width * errors[i],
	}));
}
