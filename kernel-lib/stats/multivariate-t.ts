import {
	refuse,
	requireDegreesOfFreedom,
	requireErrorRate,
	requireNumber,
} from "./checks";
import {
	type CorrelationMatrix,
	oneFactorApproximation,
	productForm,
	requireCorrelationMatrix,
} from "./correlation";
import { boxEstimator } from "./general-form";
import {
	type LargestNormal,
	largestNormal,
	meanOverScale,
} from "./largest-normal";
import { outsideProductForm } from "./product-form";
import { bracketedRoot } from "./root";
import { studentTCdf, studentTQuantile } from "./student-t";

export type { CorrelationMatrix } from "./correlation";

/** Which departures count: in both directions, or only upwards or only downwards. */
export type Alternative = "two-sided" | "greater" | "less";

/** Probability that every coordinate lies within its limits. */
export interface BoxProbability {
	readonly inside: number;
	/** 1 - inside; by the deterministic method it keeps its relative accuracy when it is tiny. */
	readonly outside: number;
	/** About 1e-11 by quadrature; three standard errors otherwise. */
	readonly error: number;
	readonly method: "product-form quadrature" | "quasi-Monte Carlo";
}

/**
 * P(lower[i] <= T_i <= upper[i] for all i) for the multivariate t with this correlation matrix (singular is allowed) and
 * these degrees of freedom; Infinity means the multivariate normal. Limits may be infinite. Matrices made of
 * uncorrelated blocks of product form rho_ij = l_i l_j are integrated to about 1e-11, all others by quasi-Monte Carlo
 * at fixed points (the same call gives the same number) with a standard error of 1e-5, or up to a few 1e-5 for five and more
 * coordinates far from product form; `error` says which.
 */
export function boxProbability(
	correlation: CorrelationMatrix,
	degreesOfFreedom: number,
	lower: ArrayLike<number>,
	upper: ArrayLike<number>,
): BoxProbability {
	requireCorrelationMatrix(correlation);
	requireDegreesOfFreedom("the multivariate t distribution", degreesOfFreedom);
	for (let index = 0; index < correlation.length; index++) {
		if (!(lower[index] <= upper[index])) {
			refuse(
				"limits-reversed",
				`limits of ${lower[index]} and ${upper[index]} for coordinate ${index + 1} of the multivariate t distribution`,
				"a lower and an upper limit",
				"Give the lower one first.",
			);
		}
	}
	const form = productForm(correlation);
	if (form.found) {
		const outside = outsideProductForm(
			form.blocks,
			degreesOfFreedom,
			lower,
			upper,
		);
		return {
			inside: 1 - outside,
			outside,
			error: 1e-11,
			method: "product-form quadrature",
		};
	}
	const { probability, error } = boxEstimator(
		correlation,
		degreesOfFreedom,
		lower,
		upper,
	).reference;
	return {
		inside: probability,
		outside: 1 - probability,
		error,
		method: "quasi-Monte Carlo",
	};
}

/**
 * d with P(max |T_i| <= d) = 1 - alpha (two-sided) or P(max T_i <= d) = 1 - alpha (one-sided, the same for both
 * directions): the critical value of simultaneous tests and intervals, Dunnett's where the comparisons share a control.
 * Good to 1e-9 for product-form correlations, to about 1e-6 for three to five others that are not nearly singular (two-sided; of wild matrices the worst seen were 3e-6, 3e-5 and 4e-5),
 * and to about 1e-4 for the rest; of more than 30 without product form (two-sided) it is a bound, never too small, and larger than need be by 0.2 to 1 % for the correlations of trials, by 2 to 4 % for the two-factor ones of data/reference/many-comparisons.json.
 */
export function simultaneousCriticalValue(
	correlation: CorrelationMatrix,
	degreesOfFreedom: number,
	alpha: number,
	alternative: Alternative,
): number {
	requireCorrelationMatrix(correlation);
	requireErrorRate("the error rate of a simultaneous critical value", alpha);
	requireDegreesOfFreedom("the simultaneous critical value", degreesOfFreedom);
	return simultaneousFamily(correlation, alternative).criticalValue(
		degreesOfFreedom,
		alpha,
	);
}

/** All simultaneous limits of one family of estimates: what critical values and p-values have in common is worked out once. */
export interface SimultaneousFamily {
	/** "bound": critical values and p may be a little too large, but never too small, because so many correlations without a product form allow no quick integral. */
	readonly are: "computed" | "bound";
	/** Where the estimates do not share one variance, each takes the value that its own degrees of freedom ask for (Hasler and Hothorn 2008, Biom. J. 50, 793). */
	criticalValue(degreesOfFreedom: number, alpha: number): number;
	/** p of each statistic, adjusted for all of them. */
	adjustedPs(
		t: ArrayLike<number>,
		degreesOfFreedom: ArrayLike<number>,
	): Float64Array;
}

/** The family of estimates with these correlations, which must be those of a covariance. */
export function simultaneousFamily(
	correlation: CorrelationMatrix,
	alternative: Alternative,
): SimultaneousFamily {
	const twoSided = alternative === "two-sided";
	const largest = largestNormal(correlation, twoSided);
	return {
		are: largest !== "none" && largest.bound ? "bound" : "computed",
		criticalValue: (df, alpha) =>
			largest === "none"
				? criticalValueByPoints(correlation, df, alpha, twoSided)
				: criticalValue(largest, df, alpha, twoSided),
		adjustedPs: (t, df) => {
			// mirrored, statistics that count downwards have the same correlations and count upwards
			const extreme = Float64Array.from(t, (value) =>
				twoSided ? Math.abs(value) : alternative === "less" ? -value : value,
			);
			const outside = outsideEach(correlation, largest, df, extreme, twoSided);
			return extreme.map((value, index) => {
				const unadjusted = (twoSided ? 2 : 1) * studentTCdf(-value, df[index]);
				return Math.min(
					1,
					correlation.length * unadjusted,
					Math.max(unadjusted, outside[index]),
				);
			});
		},
	};
}

function criticalValue(
	largest: Exclude<LargestNormal, "none">,
	degreesOfFreedom: number,
	alpha: number,
	twoSided: boolean,
): number {
	// the value for one comparison and Bonferroni's enclose it
	const sides = twoSided ? 2 : 1;
	const single = -studentTQuantile(alpha / sides, degreesOfFreedom);
	const { count } = largest;
	if (count === 1) return single;
	const bonferroni = -studentTQuantile(alpha / sides / count, degreesOfFreedom);
	const margin = 1e-6 * (1 + Math.abs(single));
	const outside = meanOverScale(largest, degreesOfFreedom, bonferroni + margin);
	return bracketedRoot(
		(d) => Math.log(outside(d) / alpha),
		single - margin,
		bonferroni + margin,
		1e-11,
	);
}

/** By quasi-Monte Carlo, from the critical value of the nearest product form. */
function criticalValueByPoints(
	correlation: CorrelationMatrix,
	degreesOfFreedom: number,
	alpha: number,
	twoSided: boolean,
): number {
	const count = correlation.length;
	const box = (d: number): Box => boxOf(count, d, twoSided);
	const l = oneFactorApproximation(correlation);
	const nearest = largestNormal(
		correlation.map((_, i) =>
			correlation.map((__, j) => (i === j ? 1 : l[i] * l[j])),
		),
		twoSided,
	);
	if (nearest === "none")
		throw new Error("the nearest product form has no product form");
	const d = criticalValue(nearest, degreesOfFreedom, alpha, twoSided);
	const outside = meanOverScale(nearest, degreesOfFreedom, d + 1e-3);
	const slope = Math.log(outside(d + 1e-3) / outside(d - 1e-3)) / 2e-3;
	const { lower, upper } = box(d);
	const estimator = boxEstimator(correlation, degreesOfFreedom, lower, upper);
	const estimatedExcess = (at: number): number => {
		const limits = box(at);
		return Math.log(
			(1 - estimator.at(limits.lower, limits.upper).probability) / alpha,
		);
	};
	return secant(
		estimatedExcess,
		d,
		Math.log((1 - estimator.reference.probability) / alpha),
		slope,
	);
}

/** Secant iteration from one known value and a good guess of the slope. */
function secant(
	f: (x: number) => number,
	start: number,
	fStart: number,
	slope: number,
): number {
	let x = start;
	let fx = fStart;
	let gradient = slope;
	for (let iteration = 0; iteration < 20; iteration++) {
		const step = -fx / gradient;
		if (Math.abs(step) < 1e-5) return x + step;
		const next = x + step;
		const fNext = f(next);
		gradient = (fNext - fx) / step;
		x = next;
		fx = fNext;
	}
	return x;
}

/**
 * Single-step adjusted p-values: for each t the probability that the largest of all the statistics (in absolute
 * value, or in the direction of the alternative) is at least as extreme. Each lies between its unadjusted p-value and
 * Bonferroni's, which also keeps tiny p-values sensible where the probability is known to 1e-6 only.
 *
 * @param degreesOfFreedom one for all, or one for each statistic where they do not share one variance
 */
export function simultaneousAdjustedP(
	t: ArrayLike<number>,
	correlation: CorrelationMatrix,
	degreesOfFreedom: number | ArrayLike<number>,
	alternative: Alternative = "two-sided",
): Float64Array {
	requireCorrelationMatrix(correlation);
	const count = correlation.length;
	const df = Float64Array.from(t, (_, index) =>
		typeof degreesOfFreedom === "number"
			? degreesOfFreedom
			: degreesOfFreedom[index],
	);
	for (const value of df)
		requireDegreesOfFreedom("the simultaneous p-values", value);
	if (t.length !== count) {
		refuse(
			"unequal-lengths",
			`${t.length} statistics and ${count} rows of correlations for simultaneous p-values`,
			"the same number of both",
			"Give one row of correlations for each statistic.",
		);
	}
	for (let index = 0; index < count; index++)
		requireNumber(
			`statistic ${index + 1} of the simultaneous p-values`,
			t[index],
		);
	return simultaneousFamily(correlation, alternative).adjustedPs(t, df);
}

interface Box {
	readonly lower: Float64Array;
	readonly upper: Float64Array;
}

/** The box within which no statistic is as extreme as t. */
function boxOf(count: number, t: number, twoSided: boolean): Box {
	const lower = twoSided ? -t : Number.NEGATIVE_INFINITY;
	return {
		lower: new Float64Array(count).fill(lower),
		upper: new Float64Array(count).fill(t),
	};
}

/** P(max T > t) for each t, with its own degrees of freedom. */
function outsideEach(
	correlation: CorrelationMatrix,
	largest: LargestNormal,
	degreesOfFreedom: ArrayLike<number>,
	t: Float64Array,
	twoSided: boolean,
): number[] {
	const byDegrees = new Map<number, (value: number) => number>();
	for (const df of new Set(Array.from(degreesOfFreedom))) {
		const own = t.filter((_, index) => degreesOfFreedom[index] === df);
		byDegrees.set(
			df,
			largest === "none"
				? outsideByPoints(correlation, df, own, twoSided)
				: meanOverScale(
						largest,
						df,
						own.reduce((most, value) => Math.max(most, Math.abs(value)), 0),
					),
		);
	}
	return Array.from(
		t,
		(value, index) => byDegrees.get(degreesOfFreedom[index])?.(value) ?? 1,
	);
}

/** One estimator for all, so that a larger statistic never gets a larger p-value. */
function outsideByPoints(
	correlation: CorrelationMatrix,
	degreesOfFreedom: number,
	t: Float64Array,
	twoSided: boolean,
): (value: number) => number {
	const count = correlation.length;
	const middle = [...t].sort((a, b) => a - b)[Math.floor(t.length / 2)];
	const { lower, upper } = boxOf(count, middle, twoSided);
	const estimator = boxEstimator(correlation, degreesOfFreedom, lower, upper);
	return (value) => {
		const box = boxOf(count, value, twoSided);
		return 1 - estimator.at(box.lower, box.upper).probability;
	};
}
