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

/** One direction that vectors span together. */
export interface SpannedDirection {
	/** Of length 1, at right angles to the others. */
	readonly direction: Float64Array;
	/** How far the vectors reach along it, all together: the singular value. Its square is an eigenvalue of the sum of the vectors' outer products. */
	readonly reach: number;
}

/** The directions that vectors span, by descending reach: the left singular vectors of the matrix that has them for columns. At most as many as there are vectors, however long these are. */
export function spannedDirections(vectors: Rows): SpannedDirection[] {
	if (vectors.length === 0) return [];
	const { diagonal, leftSingularVectors } = new SingularValueDecomposition(
		fromColumns(vectors),
		{ computeRightSingularVectors: false, autoTranspose: true },
	);
	return diagonal.map((reach, j) => ({
		reach,
		direction: Float64Array.from(leftSingularVectors.getColumn(j)),
	}));
}

/** Singular values below this share of the largest are rounding: the vectors depend on each other. */
const rounding = 1e-10;

/** Orthonormal directions that span the given vectors, as many as are independent. Each vector counts by its direction alone. */
export function orthonormalBasis(vectors: Rows): Float64Array[] {
	const unit = vectors.flatMap((v) => {
		const length = Math.sqrt(dot(v, v));
		return length > 0 ? [Float64Array.from(v, (x) => x / length)] : [];
	});
	const spanned = spannedDirections(unit);
	return spanned
		.filter(({ reach }) => reach > rounding * spanned[0].reach)
		.map(({ direction }) => direction);
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
