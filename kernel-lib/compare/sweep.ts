/**
 * A generalised inverse of a symmetric, non-negative matrix and its rank, by sweeping one pivot after the other and leaving out those that depend on earlier ones
 * (Goodnight (1979), "A tutorial on the SWEEP operator", Am. Stat. 33, 149; from memory). Made for the small matrices of a design with a few treatments and days.
 *
 * @param matrix n x n, row by row
 */
export function generalisedInverse(
	matrix: Float64Array,
	n: number,
): { readonly inverse: Float64Array; readonly rank: number } {
	const a = Float64Array.from(matrix);
	const dependent: number[] = [];
	for (let k = 0; k < n; k++) {
		const pivot = a[k * n + k];
		// What is left of a pivot after the earlier ones, beside what it was: rounding only.
		if (!(pivot > 1e-9 * Math.max(matrix[k * n + k], 1e-300))) {
			dependent.push(k);
			continue;
		}
		for (let i = 0; i < n; i++) {
			if (i === k) continue;
			const factor = a[i * n + k] / pivot;
			for (let j = 0; j < n; j++)
				if (j !== k) a[i * n + j] -= factor * a[k * n + j];
			a[i * n + k] = -factor;
		}
		for (let j = 0; j < n; j++) if (j !== k) a[k * n + j] /= pivot;
		a[k * n + k] = 1 / pivot;
	}
	for (const k of dependent)
		for (let j = 0; j < n; j++) {
			a[k * n + j] = 0;
			a[j * n + k] = 0;
		}
	return { inverse: a, rank: n - dependent.length };
}
