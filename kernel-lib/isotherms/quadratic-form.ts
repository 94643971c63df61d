/** g' M g, never below zero. */
export function quadraticForm(matrix: Float64Array, g: Float64Array): number {
	let sum = 0;
	for (let i = 0; i < g.length; i++)
		for (let j = 0; j < g.length; j++)
			sum += g[i] * matrix[i * g.length + j] * g[j];
	return Math.max(0, sum);
}
