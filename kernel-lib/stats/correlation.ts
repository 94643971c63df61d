import { refuse } from "./checks";

/** A correlation matrix, row by row; symmetric, ones on the diagonal, positive semidefinite (singular is allowed). */
export type CorrelationMatrix = readonly (readonly number[])[];

/** Refuses what cannot be a correlation matrix. */
export function requireCorrelationMatrix(correlation: CorrelationMatrix): void {
	const size = correlation.length;
	if (size === 0)
		refuse(
			"correlation-matrix",
			"an empty correlation matrix",
			"at least one row",
			"Give one row for each variable.",
		);
	for (let row = 0; row < size; row++) {
		if (correlation[row].length !== size) {
			refuse(
				"correlation-matrix",
				`${correlation[row].length} entries in row ${row + 1} of the correlation matrix`,
				`${size}, one for each variable`,
				"Give as many columns as rows.",
			);
		}
		for (let column = 0; column < size; column++) {
			const value = correlation[row][column];
			const expected = row === column ? 1 : correlation[column][row];
			if (
				!(Math.abs(value) <= 1 + 1e-12) ||
				Math.abs(value - expected) > 1e-12
			) {
				refuse(
					"correlation-matrix",
					`${value} in row ${row + 1}, column ${column + 1} of the correlation matrix`,
					row === column
						? "1"
						: "a number from -1 to 1, the same as its mirror image",
					"A correlation matrix is symmetric, with ones on its diagonal.",
				);
			}
		}
	}
}

/**
 * Coefficients l with correlation[i][j] = l[i] l[j] off the diagonal: the comparisons of several groups with one
 * control have this form. `members` are the coordinates that the block covers.
 */
export interface ProductBlock {
	readonly members: readonly number[];
	readonly coefficients: Float64Array;
}

export type ProductForm =
	| { readonly found: true; readonly blocks: readonly ProductBlock[] }
	| { readonly found: false };

const TOLERANCE = 1e-12;

/**
 * Splits the matrix into blocks that are uncorrelated with each other and writes each in product form, if all of
 * them have it. One and two coordinates always do.
 */
export function productForm(correlation: CorrelationMatrix): ProductForm {
	const blocks: ProductBlock[] = [];
	for (const members of uncorrelatedBlocks(correlation)) {
		const coefficients = blockCoefficients(correlation, members);
		if (coefficients.length === 0) return { found: false };
		blocks.push({ members, coefficients });
	}
	return { found: true, blocks };
}

function uncorrelatedBlocks(correlation: CorrelationMatrix): number[][] {
	const waiting = new Set(correlation.keys());
	const blocks: number[][] = [];
	for (const first of correlation.keys()) {
		if (!waiting.delete(first)) continue;
		const block = [first];
		for (const member of block) {
			for (const other of waiting) {
				if (Math.abs(correlation[member][other]) > TOLERANCE) {
					waiting.delete(other);
					block.push(other);
				}
			}
		}
		blocks.push(block.sort((a, b) => a - b));
	}
	return blocks;
}

/** Empty where the block has no product form. */
function blockCoefficients(
	correlation: CorrelationMatrix,
	members: readonly number[],
): Float64Array {
	const none = new Float64Array(0);
	const rho = (i: number, j: number): number =>
		correlation[members[i]][members[j]];
	const coefficients = new Float64Array(members.length);
	if (members.length === 1) return coefficients;
	if (members.length === 2) {
		coefficients[0] = Math.sqrt(Math.abs(rho(0, 1)));
		coefficients[1] = Math.sign(rho(0, 1)) * coefficients[0];
		return coefficients;
	}
	const square = (rho(0, 1) * rho(0, 2)) / rho(1, 2);
	if (!(square > 0 && square <= 1 + TOLERANCE)) return none;
	coefficients[0] = Math.min(1, Math.sqrt(square));
	for (let i = 1; i < members.length; i++) {
		coefficients[i] = rho(0, i) / coefficients[0];
		if (Math.abs(coefficients[i]) > 1 + TOLERANCE) return none;
		coefficients[i] = Math.max(-1, Math.min(1, coefficients[i]));
		for (let j = 1; j < i; j++) {
			if (Math.abs(coefficients[i] * coefficients[j] - rho(i, j)) > TOLERANCE)
				return none;
		}
	}
	return coefficients;
}

/**
 * Coefficients of a product form close to the matrix: least squares over the entries off the diagonal, one coefficient
 * at a time (MINRES factor analysis with one factor), kept off 1.
 */
export function oneFactorApproximation(
	correlation: CorrelationMatrix,
): Float64Array {
	const size = correlation.length;
	const l = Float64Array.from(correlation, (row) => {
		const others =
			row.reduce((sum, value) => sum + value, -1) / Math.max(1, size - 1);
		return Math.sign(others) * Math.sqrt(Math.min(0.9, Math.abs(others)));
	});
	for (let round = 0; round < 50; round++) {
		for (let i = 0; i < size; i++) {
			let product = 0;
			let square = 0;
			for (let j = 0; j < size; j++) {
				if (j === i) continue;
				product += correlation[i][j] * l[j];
				square += l[j] * l[j];
			}
			l[i] = square > 0 ? Math.max(-0.97, Math.min(0.97, product / square)) : 0;
		}
	}
	return l;
}
