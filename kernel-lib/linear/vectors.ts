/** Sum of the products of two vectors' entries. */
export function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
	let sum = 0;
	for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
	return sum;
}

/** v' M v, never below zero: the variance that a covariance matrix M, stored row by row, gives the sum of v's entries times its variables. */
export function quadraticForm(
	matrix: Float64Array,
	v: ArrayLike<number>,
): number {
	const size = v.length;
	let sum = 0;
	for (let i = 0; i < size; i++)
		for (let j = 0; j < size; j++) sum += v[i] * matrix[i * size + j] * v[j];
	return Math.max(0, sum);
}
