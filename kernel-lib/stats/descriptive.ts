import { refuse, requireObservations } from "./checks";

/**
 * Arithmetic mean, in the unit of the observations; accurate also where they share many leading digits.
 * @throws ProblemError for an empty list, or for an observation that is not a finite number
 * @example
 * stats.mean([9.98, 10.02, 10.06]) // => 10.02
 */
export function mean(values: ArrayLike<number>): number {
	requireObservations("a mean", values, 1);
	const { origin, meanOfShifted } = shift(values);
	return origin + meanOfShifted;
}

/** Sample variance with divisor n - 1: squares of deviations from the mean, corrected for its rounding (Chan, Golub and LeVeque 1983). */
export function sampleVariance(values: ArrayLike<number>): number {
	requireObservations("a sample variance", values, 2);
	return sumOfSquares(values) / (values.length - 1);
}

/**
 * Standard deviation of a sample, with divisor n - 1, in the unit of the observations.
 * @throws ProblemError for fewer than two observations, or for one that is not a finite number
 * @example
 * stats.sampleStandardDeviation([1, 2, 3]) // => 1
 * // the standard error of a mean, s over the root of n
 * stats.sampleStandardDeviation([7, 11, 11, 11]) / Math.sqrt(4) // => 1
 */
export function sampleStandardDeviation(values: ArrayLike<number>): number {
	return Math.sqrt(sampleVariance(values));
}

/** Sample covariance with divisor n - 1 of paired observations. */
export function sampleCovariance(
	x: ArrayLike<number>,
	y: ArrayLike<number>,
): number {
	requireObservations("the first variable of a covariance", x, 2);
	requireObservations("the second variable of a covariance", y, 2);
	if (x.length !== y.length) {
		refuse(
			"unequal-lengths",
			`${x.length} and ${y.length} observations for a covariance`,
			"pairs",
			"Give every observation its partner.",
		);
	}
	const a = shift(x);
	const b = shift(y);
	let sum = 0;
	for (let index = 0; index < x.length; index++) {
		sum +=
			(x[index] - a.origin - a.meanOfShifted) *
			(y[index] - b.origin - b.meanOfShifted);
	}
	return sum / (x.length - 1);
}

/** Sum of squared deviations from the mean, for one observation and more. */
export function sumOfSquares(values: ArrayLike<number>): number {
	const { origin, meanOfShifted } = shift(values);
	let squares = 0;
	let rest = 0;
	for (let index = 0; index < values.length; index++) {
		const deviation = values[index] - origin - meanOfShifted;
		squares += deviation * deviation;
		rest += deviation;
	}
	return Math.max(0, squares - (rest * rest) / values.length);
}

/** Subtracting the first observation takes shared leading digits away without rounding. */
function shift(values: ArrayLike<number>): {
	origin: number;
	meanOfShifted: number;
} {
	const origin = values[0];
	let sum = 0;
	for (let index = 0; index < values.length; index++)
		sum += values[index] - origin;
	return { origin, meanOfShifted: sum / values.length };
}
