/** Root mean square rounding of one residual: what no iteration can get below. */
export function roundingOf(y: Float64Array): number {
	let norm = 0;
	for (let i = 0; i < y.length; i++) norm += y[i] * y[i];
	return 2.2e-16 * Math.sqrt(norm / y.length);
}

/** How far two sums of squares near `rss` may differ by rounding alone. */
export function roundingOfSum(rss: number, floor: number, n: number): number {
	return 1e-14 * rss + 8 * floor * Math.sqrt(n * rss) + floor * floor * n;
}

/** How far two sums of squares near `rss` may differ by rounding alone, from the response that they are computed with. */
export function roundingOfSumOfSquares(rss: number, y: Float64Array): number {
	return roundingOfSum(rss, roundingOf(y), y.length);
}
