import { Matrix } from "ml-matrix";

/** A matrix as its rows. */
export type Rows = readonly ArrayLike<number>[];

/** The rows of a matrix that is stored row by row in one array. */
export function rowsOf(
	stored: Float64Array,
	rows: number,
	columns: number,
): Float64Array[] {
	return Array.from({ length: rows }, (_, i) =>
		stored.subarray(i * columns, (i + 1) * columns),
	);
}

/** The matrix whose columns are these vectors. */
export function fromColumns(columns: Rows): Matrix {
	const rows = columns.length === 0 ? 0 : columns[0].length;
	const matrix = new Matrix(rows, columns.length);
	for (let j = 0; j < columns.length; j++)
		for (let i = 0; i < rows; i++) matrix.set(i, j, columns[j][i]);
	return matrix;
}

/** A symmetric matrix from its lower triangle: what rounding left above the diagonal does not count. */
export function symmetric(rows: Rows): Matrix {
	const size = rows.length;
	const matrix = new Matrix(size, size);
	for (let i = 0; i < size; i++)
		for (let j = 0; j <= i; j++) {
			matrix.set(i, j, rows[i][j]);
			matrix.set(j, i, rows[i][j]);
		}
	return matrix;
}
