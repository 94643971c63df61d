import { betaPower, incompleteBeta } from "./beta";
import {
	requireDegreesOfFreedom,
	requireNumber,
	requireProbability,
} from "./checks";
import { newton } from "./newton";
import { normalCdf, normalDensity, normalQuantile } from "./normal";
import { stirlingError } from "./stirling";

/** From here on Hill's expansion is as exact as the beta function, and the continued fraction would be long. */
const LARGE = 1e5;

/** Density of Student's t; any degrees of freedom above 0, Infinity means the normal. */
export function studentTDensity(t: number, degreesOfFreedom: number): number {
	requireDegreesOfFreedom("Student's t density", degreesOfFreedom);
	if (degreesOfFreedom === Number.POSITIVE_INFINITY) return normalDensity(t);
	const half = degreesOfFreedom / 2;
	// Gamma(half + 1/2) / Gamma(half) by Stirling's formula and what it leaves out
	const lnRatio =
		stirlingError(half + 0.5) -
		stirlingError(half) +
		half * Math.log1p(0.5 / half) -
		0.5 +
		0.5 * Math.log(half);
	const power = -(half + 0.5) * Math.log1p((t / degreesOfFreedom) * t);
	return Math.exp(lnRatio + power) / Math.sqrt(degreesOfFreedom * Math.PI);
}

/** P(T <= t) for Student's t; any degrees of freedom above 0, Infinity means the normal. Full relative accuracy in the lower tail. */
export function studentTCdf(t: number, degreesOfFreedom: number): number {
	requireNumber("Student's t distribution", t);
	requireDegreesOfFreedom("Student's t distribution", degreesOfFreedom);
	return t <= 0
		? upperTail(-t, degreesOfFreedom)
		: 1 - upperTail(t, degreesOfFreedom);
}

/** P(T > t), with full relative accuracy in the upper tail. */
export function studentTUpperTail(t: number, degreesOfFreedom: number): number {
	return studentTCdf(-t, degreesOfFreedom);
}

/** P(|T| > |t|), the two-sided p-value. */
export function studentTTwoSidedP(t: number, degreesOfFreedom: number): number {
	return 2 * studentTCdf(-Math.abs(t), degreesOfFreedom);
}

/** P(T > t) for t >= 0. */
function upperTail(t: number, degreesOfFreedom: number): number {
	if (degreesOfFreedom === Number.POSITIVE_INFINITY) return normalCdf(-t);
	if (degreesOfFreedom > LARGE)
		return normalCdf(-equivalentNormal(t, degreesOfFreedom));
	const square = t * t;
	const total = degreesOfFreedom + square;
	if (total === Number.POSITIVE_INFINITY)
		return 0.5 * farTail(t, degreesOfFreedom);
	return (
		0.5 *
		incompleteBeta(
			degreesOfFreedom / 2,
			0.5,
			degreesOfFreedom / total,
			square / total,
		).lower
	);
}

/** I_x(df/2, 1/2) for so large a t that its square overflows: only the leading power is left. */
function farTail(t: number, degreesOfFreedom: number): number {
	if (t === Number.POSITIVE_INFINITY) return 0;
	const half = degreesOfFreedom / 2;
	const rootX = Math.sqrt(degreesOfFreedom) / t;
	return (
		(betaPower(half, 0.5, 0.5, 0.5) / 0.5 ** (half + 0.5) / half) *
		rootX ** degreesOfFreedom
	);
}

/** The normal deviate with the same tail, Hill (1970), Comm. ACM 13, 617 (Algorithm 395), for large degrees of freedom. */
function equivalentNormal(t: number, degreesOfFreedom: number): number {
	const a = degreesOfFreedom - 0.5;
	const b = 48 * a * a;
	const w = a * Math.log1p((t / degreesOfFreedom) * t);
	const correction =
		w +
		3 -
		(((4 * w + 33) * w + 240) * w + 855) / (10 * (b + 0.8 * w * w + 100));
	return Math.sqrt(w) * (1 + correction / b);
}

/**
 * Quantile of Student's t distribution: t with P(T <= t) = p, for p from 0 (-Infinity) to 1 (Infinity) and any degrees of freedom above 0. A two-sided interval of confidence 0.95 takes p = 0.975.
 * Newton's iteration on logarithms of t and of the probability, about 1 part in 10^14.
 * @throws ProblemError for a p outside 0 to 1, or degrees of freedom that are not above 0
 */
export function studentTQuantile(p: number, degreesOfFreedom: number): number {
	requireProbability("Student's t quantile", p);
	requireDegreesOfFreedom("Student's t quantile", degreesOfFreedom);
	if (p === 0.5) return 0;
	if (degreesOfFreedom === Number.POSITIVE_INFINITY || p === 0 || p === 1)
		return normalQuantile(p);
	const tail = Math.min(p, 1 - p);
	const size =
		tail > 0.25
			? centralQuantile(0.5 - tail, degreesOfFreedom)
			: tailQuantile(tail, degreesOfFreedom);
	return p < 0.5 ? -size : size;
}

/** t > 0 with P(0 < T < t) = central. The start lies below the root because the density falls. */
function centralQuantile(central: number, degreesOfFreedom: number): number {
	const start = Math.log(central / studentTDensity(0, degreesOfFreedom));
	return Math.exp(
		newton(start, (v) => {
			const t = Math.exp(v);
			const probability = centralProbability(t, degreesOfFreedom);
			const slope = (t * studentTDensity(t, degreesOfFreedom)) / probability;
			return { gap: Math.log(central / probability), slope };
		}),
	);
}

function centralProbability(t: number, degreesOfFreedom: number): number {
	if (degreesOfFreedom > LARGE)
		return 0.5 - normalCdf(-equivalentNormal(t, degreesOfFreedom));
	const total = degreesOfFreedom + t * t;
	return (
		0.5 *
		incompleteBeta(
			0.5,
			degreesOfFreedom / 2,
			(t * t) / total,
			degreesOfFreedom / total,
		).lower
	);
}

/** t > 0 with P(T > t) = tail. */
function tailQuantile(tail: number, degreesOfFreedom: number): number {
	const z = -normalQuantile(tail);
	const start = Math.log(z * (1 + (z * z + 1) / (4 * degreesOfFreedom)));
	return Math.exp(
		newton(start, (v) => {
			const t = Math.exp(v);
			const probability = upperTail(t, degreesOfFreedom);
			const slope = (t * studentTDensity(t, degreesOfFreedom)) / probability;
			return { gap: Math.log(probability / tail), slope };
		}),
	);
}
