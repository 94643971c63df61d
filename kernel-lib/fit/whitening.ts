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

/** Result of a Cholesky factorisation; `row` is where a matrix that is not positive definite was found out. */
export type Cholesky =
	| { readonly kind: "factor"; readonly factor: Float64Array }
	| { readonly kind: "not positive definite"; readonly row: number };

/** Lower Cholesky factor of a symmetric matrix given row by row (Golub and Van Loan, section 4.2). */
export function cholesky(matrix: Float64Array, size: number): Cholesky {
	const factor = new Float64Array(size * size);
	for (let i = 0; i < size; i++)
		for (let j = 0; j <= i; j++) {
			let sum = matrix[i * size + j];
			for (let k = 0; k < j; k++)
				sum -= factor[i * size + k] * factor[j * size + k];
			if (i !== j) factor[i * size + j] = sum / factor[j * size + j];
			else if (sum > 1e-14 * matrix[i * size + i])
				factor[i * size + i] = Math.sqrt(sum);
			else return { kind: "not positive definite", row: i };
		}
	return { kind: "factor", factor };
}
