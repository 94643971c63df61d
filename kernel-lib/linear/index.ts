/** Linear algebra on ml-matrix, in plain arrays: a matrix is its rows. Knows nothing of chemistry. */
export {
	type CholeskyFactor,
	choleskyFactor,
	type SemidefiniteFactor,
	semidefiniteFactor,
} from "./cholesky";
export { type Eigen, eigenOfSymmetric } from "./eigen";
export {
	type Inverse,
	inverseOfPositiveDefinite,
	inverseOfTriangle,
	type PseudoInverse,
	pseudoInverse,
} from "./inverse";
export { type Rows, rowsOf } from "./matrix";
export {
	orthonormalBasis,
	type SingularValues,
	type SpannedDirection,
	singularValues,
	spannedDirections,
	withoutDirections,
} from "./singular-values";
export { dot, quadraticForm } from "./vectors";
