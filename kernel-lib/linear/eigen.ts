import { EigenvalueDecomposition } from "ml-matrix";
import { type Rows, symmetric } from "./matrix";

export interface Eigen {
	/** In ascending order. */
	readonly values: readonly number[];
	/** One vector of length 1 for each value, each orthogonal to the others. */
	readonly vectors: readonly Float64Array[];
}

/** Eigenvalues and eigenvectors of a symmetric matrix, whose lower triangle is read. */
export function eigenOfSymmetric(matrix: Rows): Eigen {
	if (matrix.length === 0) return { values: [], vectors: [] };
	const found = new EigenvalueDecomposition(symmetric(matrix), {
		assumeSymmetric: true,
	});
	const { realEigenvalues: values, eigenvectorMatrix: vectors } = found;
	return {
		values,
		vectors: values.map((_, j) => Float64Array.from(vectors.getColumn(j))),
	};
}
