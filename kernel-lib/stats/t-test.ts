import { refuse, requireConfidence, requireObservations } from "./checks";
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
	/** Two-sided confidence interval of the difference. */
	readonly interval: readonly [number, number];
}

/**
 * Welch's t test of two independent samples whose variances may differ: first mean less second, with its standard error, two-sided p-value and confidence interval (confidence 0.95 if not given).
 * Source: Welch 1947, Biometrika 34, 28 (from memory); degrees of freedom by Welch and Satterthwaite (JCGM 100:2008, G.2b).
 * @throws ProblemError for a sample of fewer than two observations, or where neither scatters
 * @example
 * const test = stats.welchTTest([10, 12, 14], [20, 22, 24]);
 * test.difference // => -10
 * test.degreesOfFreedom // => 4
 */
export function welchTTest(
	first: ArrayLike<number>,
	second: ArrayLike<number>,
	confidence = 0.95,
): TTest {
	requireObservations("the first sample of Welch's t test", first, 2);
	requireObservations("the second sample of Welch's t test", second, 2);
	const variances = [
		sampleVariance(first) / first.length,
		sampleVariance(second) / second.length,
	];
	if (variances[0] + variances[1] === 0) noScatter("Welch's t test");
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
		confidence,
	);
}

/** Student's t test of two independent samples with one common variance; three observations in all at least. Two-sided; confidence 0.95 if not given. */
export function pooledTTest(
	first: ArrayLike<number>,
	second: ArrayLike<number>,
	confidence = 0.95,
): TTest {
	requireObservations("the first sample of the pooled t test", first, 1);
	requireObservations("the second sample of the pooled t test", second, 1);
	const degreesOfFreedom = first.length + second.length - 2;
	const squares = sumOfSquares(first) + sumOfSquares(second);
	if (degreesOfFreedom === 0 || squares === 0) noScatter("the pooled t test");
	const variance =
		(squares / degreesOfFreedom) * (1 / first.length + 1 / second.length);
	return tested(
		mean(first) - mean(second),
		Math.sqrt(variance),
		degreesOfFreedom,
		confidence,
	);
}

function tested(
	difference: number,
	standardError: number,
	degreesOfFreedom: number,
	confidence: number,
): TTest {
	requireConfidence(confidence);
	const t = difference / standardError;
	const reach =
		-studentTQuantile((1 - confidence) / 2, degreesOfFreedom) * standardError;
	return {
		difference,
		standardError,
		degreesOfFreedom,
		t,
		p: studentTTwoSidedP(t, degreesOfFreedom),
		interval: [difference - reach, difference + reach],
	};
}

function noScatter(what: string): never {
	refuse(
		"no-scatter",
		`no scatter within the samples of ${what}`,
		"observations that differ",
		"Without scatter there is nothing to measure the difference against: measure replicates.",
	);
}
