import type { CurveEstimate } from "./curve-estimate";

/** Variance of an uptake on a curve, scatter and shared errors together, (mg/g)^2. */
export function estimateVariance({
	scatterVariance,
	shared,
}: CurveEstimate): number {
	let sum = scatterVariance;
	for (const effect of shared.values()) sum += effect ** 2;
	return sum;
}

/** Its degrees of freedom: those of the scatter, and more the larger the part that shared errors have in it (Welch and Satterthwaite, JCGM 100:2008, G.4.1; few readings behind a shared error are in its size). */
export function combinedDegrees(estimate: CurveEstimate): number {
	const below = estimate.scatterVariance ** 2 / estimate.degreesOfFreedom;
	return below > 0
		? estimateVariance(estimate) ** 2 / below
		: Number.POSITIVE_INFINITY;
}
