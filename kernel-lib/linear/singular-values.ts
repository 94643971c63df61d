import { SingularValueDecomposition } from "ml-matrix";
import { fromColumns, type Rows } from "./matrix";
import { dot } from "./vectors";

export interface SingularValues {
	/** In descending order. */
	readonly values: readonly number[];
	/** The direction in which the matrix does least: the right singular vector of the smallest value. */
	readonly weakest: Float64Array;
}

/** Singular values of a matrix with at least as many rows as columns, given by its columns. */
export function singularValues(columns: Rows): SingularValues {
	if (columns.length === 0) return { values: [], weakest: new Float64Array(0) };
	const found = new SingularValueDecomposition(fromColumns(columns), {
		computeLeftSingularVectors: false,
	});
	return {
		values: found.diagonal,
		weakest: Float64Array.from(
			found.rightSingularVectors.getColumn(columns.length - 1),
		),
	};
}

/** Singular values below this share of the largest are rounding: the vectors depend on each other. */
const rounding = 1e-10;

/** Orthonormal directions that span the given vectors, as many as are independent. Each vector counts by its direction alone. */
export function orthonormalBasis(vectors: Rows): Float64Array[] {
	const unit = vectors.flatMap((v) => {
		const length = Math.sqrt(dot(v, v));
		return length > 0 ? [Float64Array.from(v, (x) => x / length)] : [];
	});
	if (unit.length === 0) return [];
	const found = new SingularValueDecomposition(fromColumns(unit), {
		computeRightSingularVectors: false,
		autoTranspose: true,
	});
	const values = found.diagonal;
	return values.flatMap((value, j) =>
		value > rounding * values[0]
			? [Float64Array.from(found.leftSingularVectors.getColumn(j))]
			: [],
	);
}

/** What is left of a vector when its parts along orthonormal directions are taken off. */
export function withoutDirections(
	directions: readonly Float64Array[],
	vector: Float64Array,
): Float64Array {
	const rest = vector.slice();
	for (const direction of directions) {
		const along = dot(direction, rest);
		for (let i = 0; i < rest.length; i++) rest[i] -= along * direction[i];
	}
	return rest;
}
