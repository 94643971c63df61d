import { requireLevel, requireObservations } from "./checks";
import { welchSatterthwaite } from "./degrees-of-freedom";
import { mean, sampleVariance, sumOfSquares } from "./descriptive";
import { studentTQuantile, studentTTwoSidedP } from "./student-t";

/** Comparison of two means: first minus second. */
export interface TTest {
	readonly difference: number;
	readonly standardError: number;
	readonly degreesOfFreedom: number;
	readonly t: number;
	/** Two-sided. */
	readonly p: number;
	/** Two-sided confidence interval of the difference at the level asked for. */
	readonly interval: readonly [number, number];
}

/** Welch's t test of two independent samples whose variances may differ; both need two observations. Two-sided, confidence level 0.95 unless said. */
export function welchTTest(
	first: ArrayLike<number>,
	second: ArrayLike<number>,
	level = 0.95,
): TTest {
	requireObservations("Welch t test, first sample", first, 2);
	requireObservations("Welch t test, second sample", second, 2);
	const variances = [
		sampleVariance(first) / first.length,
		sampleVariance(second) / second.length,
	];
	if (variances[0] + variances[1] === 0) throw noScatter("Welch t test");
	const degreesOfFreedom = welchSatterthwaite([
		{
			uncertainty: Math.sqrt(variances[0]),
			degreesOfFreedom: first.length - 1,
		},
		{
			uncertainty: Math.sqrt(variances[1]),
			degreesOfFreedom: second.length - 1,
		},
	]);
	return tested(
		mean(first) - mean(second),
		Math.sqrt(variances[0] + variances[1]),
		degreesOfFreedom,
		level,
	);
}

/** Student's t test of two independent samples with one common variance; three observations in all at least. Two-sided, confidence level 0.95 unless said. */
export function pooledTTest(
	first: ArrayLike<number>,
	second: ArrayLike<number>,
	level = 0.95,
): TTest {
	requireObservations("Pooled t test, first sample", first, 1);
	requireObservations("Pooled t test, second sample", second, 1);
	const degreesOfFreedom = first.length + second.length - 2;
	const squares = sumOfSquares(first) + sumOfSquares(second);
	if (degreesOfFreedom === 0 || squares === 0) throw noScatter("Pooled t test");
	const variance =
		(squares / degreesOfFreedom) * (1 / first.length + 1 / second.length);
	return tested(
		mean(first) - mean(second),
		Math.sqrt(variance),
		degreesOfFreedom,
		level,
	);
}

function tested(
	difference: number,
	standardError: number,
	degreesOfFreedom: number,
	level: number,
): TTest {
	requireLevel("Confidence interval of a difference", level);
	const t = difference / standardError;
	const reach =
		-studentTQuantile((1 - level) / 2, degreesOfFreedom) * standardError;
	return {
		difference,
		standardError,
		degreesOfFreedom,
		t,
		p: studentTTwoSidedP(t, degreesOfFreedom),
		interval: [difference - reach, difference + reach],
	};
}

function noScatter(what: string): RangeError {
	return new RangeError(
		`${what}: no scatter within the samples; expected observations that differ, else there is nothing to measure the difference against.`,
	);
}
