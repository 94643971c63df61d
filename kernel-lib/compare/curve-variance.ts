import type { CurveEstimate } from "./curve-estimate";

/** Variance of an uptake on a curve, scatter and shared errors together, (mg/g)^2. */
export function estimateVariance({
	scatterVariance,
	shared,
}: CurveEstimate): number {
	let sum = scatterVariance;
	for (const { effect } of shared.values()) sum += effect ** 2;
	return sum;
}

/** Its degrees of freedom by Welch and Satterthwaite (JCGM 100:2008, G.4.1). */
export function combinedDegrees(estimate: CurveEstimate): number {
	let below = estimate.scatterVariance ** 2 / estimate.degreesOfFreedom;
	for (const { effect, degreesOfFreedom } of estimate.shared.values())
		below += effect ** 4 / degreesOfFreedom;
	return below > 0
		? estimateVariance(estimate) ** 2 / below
		: Number.POSITIVE_INFINITY;
}
