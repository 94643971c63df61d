import { CholeskyDecomposition, solve } from "ml-matrix";
import { eigenOfSymmetric } from "./eigen";
import { fromColumns, type Rows, symmetric } from "./matrix";

/** Lower triangle L with L L' = matrix, row by row; or the first row at which the matrix is not positive definite. */
export type CholeskyFactor =
	| { readonly is: "factor"; readonly factor: readonly Float64Array[] }
	| { readonly is: "not positive definite"; readonly row: number };

/** Lower triangle L with L L' = matrix, row by row; or the statement that there is none. */
export type SemidefiniteFactor =
	| { readonly is: "factor"; readonly factor: readonly Float64Array[] }
	| { readonly is: "not positive semidefinite" };

/** What is left of a diagonal entry below this share of it is rounding: the row depends on those before it. */
const rounding = 1e-14;

/** An eigenvalue below minus this share of the largest is not rounding. */
const negative = 1e-10;

/** Cholesky factor of a symmetric matrix, whose lower triangle is read. */
export function choleskyFactor(
	matrix: Rows,
	tolerance = rounding,
): CholeskyFactor {
	const factor = new CholeskyDecomposition(symmetric(matrix))
		.lowerTriangularMatrix;
	const row = matrix.findIndex(
		(given, i) => !(factor.get(i, i) ** 2 > tolerance * Math.abs(given[i])),
	);
	return row < 0
		? {
				is: "factor",
				factor: matrix.map((_, i) => Float64Array.from(factor.getRow(i))),
			}
		: { is: "not positive definite", row };
}

/**
 * Cholesky factor of a symmetric matrix that may be singular, such as one with a correlation of 1: a row that depends on those before it brings no column of its own.
 * A matrix with a negative eigenvalue has no such factor.
 */
export function semidefiniteFactor(matrix: Rows): SemidefiniteFactor {
	const { values } = eigenOfSymmetric(matrix);
	const largest = values.reduce((a, b) => Math.max(a, Math.abs(b)), 0);
	if (!values.every((v) => v >= -negative * largest))
		return { is: "not positive semidefinite" };
	const among = (rows: readonly number[]): Rows =>
		rows.map((i) => rows.map((j) => matrix[i][j]));
	let independent: readonly number[] = [];
	for (let i = 0; i < matrix.length; i++) {
		const more = [...independent, i];
		if (choleskyFactor(among(more)).is === "factor") independent = more;
	}
	const factor = matrix.map(() => new Float64Array(matrix.length));
	const own = choleskyFactor(among(independent));
	if (own.is === "factor" && independent.length > 0) {
		const solved = solve(
			own.factor.map((row) => Array.from(row)),
			fromColumns(matrix.map((row) => independent.map((j) => row[j]))),
		);
		independent.forEach((column, k) => {
			for (let i = column; i < factor.length; i++)
				factor[i][column] = solved.get(k, i);
		});
	}
	return { is: "factor", factor };
}
