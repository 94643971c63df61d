import {
	refuse,
	requireConfidence,
	requireErrorRate,
	requireObservations,
} from "./checks";
import { mean, sampleStandardDeviation } from "./descriptive";
import { fQuantile } from "./f-distribution";
import { studentTQuantile, studentTUpperTail } from "./student-t";

/** What Grubbs' test says of the observation farthest from the mean. It advises; nothing is ever deleted. */
export interface GrubbsTest {
	/** Position of that observation, from 0. */
	readonly index: number;
	/** Its distance from the mean in sample standard deviations; 0 where all observations are equal. */
	readonly statistic: number;
	readonly criticalValue: number;
	/** Two-sided; Bonferroni's bound, exact where small. */
	readonly p: number;
	/** Worth looking into: the statistic exceeds its critical value. */
	readonly suspect: boolean;
}

/**
 * Critical value of Grubbs' statistic max |x - mean| / s for n >= 3 observations (Grubbs 1969, Technometrics 11, 1):
 * two-sided for an outlier on either side, one-sided for a side named beforehand.
 */
export function grubbsCriticalValue(
	n: number,
	alpha: number,
	sided: "two-sided" | "one-sided" = "two-sided",
): number {
	requireErrorRate("the error rate of Grubbs' test", alpha);
	if (!Number.isInteger(n) || n < 3) {
		refuse(
			"too-few-observations",
			`${n} observations for Grubbs' test`,
			"a whole number of at least 3",
			"With two observations neither can be the odd one.",
		);
	}
	const t = studentTQuantile(
		alpha / (sided === "two-sided" ? 2 * n : n),
		n - 2,
	);
	return ((n - 1) / Math.sqrt(n)) * Math.sqrt((t * t) / (n - 2 + t * t));
}

/**
 * Grubbs' two-sided test for one outlier among normal observations (Grubbs 1969, Technometrics 11, 1); confidence 0.95 if not given. It advises; nothing is ever deleted.
 * @throws ProblemError for fewer than three observations
 * @example
 * const farthest = stats.grubbsTest([10.1, 10.2, 10.0, 12.9, 10.1]);
 * farthest.index // => 3
 * farthest.suspect // => true
 */
export function grubbsTest(
	values: ArrayLike<number>,
	confidence = 0.95,
): GrubbsTest {
	requireConfidence(confidence);
	requireObservations("Grubbs' test", values, 3);
	const n = values.length;
	const centre = mean(values);
	const spread = sampleStandardDeviation(values);
	let index = 0;
	for (let other = 1; other < n; other++) {
		if (Math.abs(values[other] - centre) > Math.abs(values[index] - centre))
			index = other;
	}
	const statistic =
		spread === 0 ? 0 : Math.abs(values[index] - centre) / spread;
	const criticalValue = grubbsCriticalValue(n, 1 - confidence);
	// t grows beyond all bounds where the other observations are equal
	const room = Math.max(0, (n - 1) ** 2 - n * statistic ** 2);
	const t =
		room === 0
			? Number.POSITIVE_INFINITY
			: statistic * Math.sqrt((n * (n - 2)) / room);
	const p = Math.min(1, 2 * n * studentTUpperTail(t, n - 2));
	return {
		index,
		statistic,
		criticalValue,
		p,
		suspect: statistic > criticalValue,
	};
}

/** Critical value of Cochran's C, the largest of `groups` variances over their sum, each from `replicates` observations; upper tail (ISO 5725-2). */
export function cochranCriticalValue(
	groups: number,
	replicates: number,
	alpha: number,
): number {
	requireErrorRate("the error rate of Cochran's test", alpha);
	if (
		!Number.isInteger(groups) ||
		groups < 2 ||
		!Number.isInteger(replicates) ||
		replicates < 2
	) {
		refuse(
			"number-of-groups",
			`${groups} groups of ${replicates} for Cochran's test`,
			"whole numbers of at least 2",
			"Cochran's test compares the variances of groups of equal size.",
		);
	}
	const f = fQuantile(
		1 - alpha / groups,
		replicates - 1,
		(groups - 1) * (replicates - 1),
	);
	return f / (f + groups - 1);
}
