/**
 * Largest range of n results, in repeatability standard deviations, that 95 of 100 sets keep within (ISO 5725-6, table of critical range factors; from memory, rounded to a tenth as
 * there). For two it is the repeatability limit itself: r = 2.8 s_r.
 */
const factors = [0, 0, 2.8, 3.3, 3.6, 3.9, 4.0, 4.2, 4.3, 4.4, 4.5] as const;

/** @param n number of results; beyond ten the factor of ten is kept, which is the stricter */
export function criticalRangeFactor(n: number): number {
	if (!Number.isInteger(n) || n < 2)
		throw new Error(`A range takes two results or more, found ${n}.`);
	return factors[Math.min(n, factors.length - 1)];
}
