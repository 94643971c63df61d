import {
	requireDegreesOfFreedom,
	requireNumber,
	requireProbability,
} from "./checks";
import { incompleteGamma, type Tails } from "./gamma";
import { newton } from "./newton";
import { normalQuantile } from "./normal";
import { deviance, stirlingError } from "./stirling";

/** Density of the chi-square distribution at x > 0. */
export function chiSquareDensity(x: number, degreesOfFreedom: number): number {
	requireDegreesOfFreedom("the chi-square density", degreesOfFreedom);
	if (x < 0) return 0;
	const half = degreesOfFreedom / 2;
	if (x === 0)
		return half < 1 ? Number.POSITIVE_INFINITY : half === 1 ? 0.5 : 0;
	return (
		(Math.sqrt(half / (2 * Math.PI)) / x) *
		Math.exp(-stirlingError(half) - deviance(half, x / 2))
	);
}

/** P(X <= x) for chi-square; any degrees of freedom above 0. Full relative accuracy in the lower tail. */
export function chiSquareCdf(x: number, degreesOfFreedom: number): number {
	return tails(x, degreesOfFreedom).lower;
}

/** P(X > x), with full relative accuracy in the upper tail. */
export function chiSquareUpperTail(
	x: number,
	degreesOfFreedom: number,
): number {
	return tails(x, degreesOfFreedom).upper;
}

function tails(x: number, degreesOfFreedom: number): Tails {
	requireNumber("the chi-square distribution", x);
	requireDegreesOfFreedom("the chi-square distribution", degreesOfFreedom);
	return incompleteGamma(degreesOfFreedom / 2, x / 2);
}

/**
 * x with P(X <= x) = p, for p from 0 to 1 (Infinity). Newton's iteration on logarithms, started by Wilson and
 * Hilferty's cube root where it is positive and by the leading power of the distribution where it is not.
 */
export function chiSquareQuantile(p: number, degreesOfFreedom: number): number {
	requireProbability("the chi-square quantile", p);
	requireDegreesOfFreedom("the chi-square quantile", degreesOfFreedom);
	if (p === 0) return 0;
	if (p === 1) return Number.POSITIVE_INFINITY;
	return Math.exp(
		newton(quantileStart(p, degreesOfFreedom), (v) => {
			const x = Math.exp(v);
			const { lower, upper } = incompleteGamma(degreesOfFreedom / 2, x / 2);
			const growth = x * chiSquareDensity(x, degreesOfFreedom);
			return p < 0.5
				? { gap: Math.log(p / lower), slope: growth / lower }
				: { gap: Math.log(upper / (1 - p)), slope: growth / upper };
		}),
	);
}

function quantileStart(p: number, degreesOfFreedom: number): number {
	const width = 2 / (9 * degreesOfFreedom);
	const cubeRoot = 1 - width + normalQuantile(p) * Math.sqrt(width);
	if (cubeRoot > 0.3)
		return Math.log(degreesOfFreedom) + 3 * Math.log(cubeRoot);
	// P(X <= x) is nearly (x/2)^half / Gamma(half + 1) here
	const half = degreesOfFreedom / 2;
	const lnGamma =
		stirlingError(half) +
		(half + 0.5) * Math.log(half) -
		half +
		0.5 * Math.log(2 * Math.PI);
	return Math.log(2) + (Math.log(p) + lnGamma) / half;
}
