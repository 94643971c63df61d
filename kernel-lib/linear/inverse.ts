import { CholeskyDecomposition, inverse, Matrix } from "ml-matrix";
import { choleskyFactor } from "./cholesky";
import { eigenOfSymmetric } from "./eigen";
import { type Rows, symmetric } from "./matrix";

export type Inverse =
	| { readonly is: "inverse"; readonly inverse: readonly Float64Array[] }
	| { readonly is: "not positive definite"; readonly row: number };

/** Inverse of a symmetric positive definite matrix. What is left of a diagonal entry, beside the rows before it, must be more than `tolerance` of it. */
export function inverseOfPositiveDefinite(
	matrix: Rows,
	tolerance: number,
): Inverse {
	const factor = choleskyFactor(matrix, tolerance);
	if (factor.is !== "factor") return factor;
	const found = new CholeskyDecomposition(symmetric(matrix)).solve(
		Matrix.eye(matrix.length),
	);
	return {
		is: "inverse",
		inverse: matrix.map((_, i) => Float64Array.from(found.getRow(i))),
	};
}

/** Inverse of a triangular matrix without zeros on its diagonal. */
export function inverseOfTriangle(triangle: Rows): Float64Array[] {
	const found = inverse(triangle.map((row) => Array.from(row)));
	return triangle.map((_, i) => Float64Array.from(found.getRow(i)));
}

export interface PseudoInverse {
	readonly inverse: readonly Float64Array[];
	readonly rank: number;
}

/** Eigenvalues below this share of the largest are rounding. */
const rounding = 1e-9;

/** Moore and Penrose's inverse of a symmetric matrix without negative eigenvalues, and its rank. */
export function pseudoInverse(matrix: Rows): PseudoInverse {
	const { values, vectors } = eigenOfSymmetric(matrix);
	const largest = values.reduce((a, b) => Math.max(a, b), 0);
	const kept = values.flatMap((value, k) =>
		value > rounding * largest ? [{ value, vector: vectors[k] }] : [],
	);
	return {
		rank: kept.length,
		inverse: matrix.map((_, i) =>
			Float64Array.from(matrix, (_, j) =>
				kept.reduce(
					(sum, { value, vector }) => sum + (vector[i] * vector[j]) / value,
					0,
				),
			),
		),
	};
}
