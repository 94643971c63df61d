import { requireObservations } from "./checks";

/** Arithmetic mean; accurate also where the observations share many leading digits. */
export function mean(values: ArrayLike<number>): number {
	requireObservations("Mean", values, 1);
	const { origin, meanOfShifted } = shift(values);
	return origin + meanOfShifted;
}

/** Sample variance with divisor n - 1: squares of deviations from the mean, corrected for its rounding (Chan, Golub and LeVeque 1983). */
export function sampleVariance(values: ArrayLike<number>): number {
	requireObservations("Sample variance", values, 2);
	return sumOfSquares(values) / (values.length - 1);
}

/** Square root of the sample variance. */
export function sampleStandardDeviation(values: ArrayLike<number>): number {
	return Math.sqrt(sampleVariance(values));
}

/** Standard error of the mean: sample standard deviation over the root of n. */
export function standardError(values: ArrayLike<number>): number {
	return Math.sqrt(sampleVariance(values) / values.length);
}

/** Sample covariance with divisor n - 1 of paired observations. */
export function sampleCovariance(
	x: ArrayLike<number>,
	y: ArrayLike<number>,
): number {
	requireObservations("Sample covariance, first variable", x, 2);
	requireObservations("Sample covariance, second variable", y, 2);
	if (x.length !== y.length) {
		throw new RangeError(
			`Sample covariance: ${x.length} and ${y.length} observations given; expected pairs.`,
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
