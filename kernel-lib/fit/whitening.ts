/**
 * What turns a residual in the unit of y into one in units of its own error, so that least squares weighs all points
 * rightly: nothing, division by sigma, or multiplication by the inverse Cholesky factor of the points' covariance.
 */
export type Whitening =
	| { readonly kind: "none" }
	| { readonly kind: "sigma"; readonly sigma: Float64Array }
	| {
			readonly kind: "covariance";
			/** Lower Cholesky factor, row by row. */
			readonly factor: Float64Array;
			/** Standard deviation of each point, the root of the diagonal. */
			readonly sigma: Float64Array;
	  };

/** Whitens one column of `points` numbers in place. */
export function whiten(
	whitening: Whitening,
	column: Float64Array,
	offset: number,
	points: number,
): void {
	if (whitening.kind === "none") return;
	if (whitening.kind === "sigma") {
		const { sigma } = whitening;
		for (let i = 0; i < points; i++) column[offset + i] /= sigma[i];
		return;
	}
	const { factor } = whitening;
	for (let i = 0; i < points; i++) {
		let sum = column[offset + i];
		for (let j = 0; j < i; j++)
			sum -= factor[i * points + j] * column[offset + j];
		column[offset + i] = sum / factor[i * points + i];
	}
}
