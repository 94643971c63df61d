import { inverseOfTriangle, singularValues } from "../linear";
import { reduceColumns } from "./qr";
import type { Objective } from "./workspace";

/** The Jacobian's triangular factor at one point, and what follows from it alone. Parameters are counted as in `columns`. */
export interface Factor {
	/** Indices of the parameters, in the order of the rows and columns below. */
	readonly columns: readonly number[];
	/** Lengths of the columns of the Jacobian. */
	readonly norms: Float64Array;
	/** Inverse of the triangular factor, row by row. */
	readonly inverse: Float64Array;
	/** Ratio of the largest to the smallest singular value of the Jacobian with its columns scaled to length 1. */
	readonly condition: number;
	/** How much each parameter takes part in the least determined direction, between 0 and 1. */
	readonly weakest: Float64Array;
	readonly singular: boolean;
	/** Share of each point in its own fitted value (diagonal of the hat matrix). */
	readonly leverage: Float64Array;
}

/** Conditions above this leave no digit of the standard errors. */
const singularCondition = 1e11;

/** Factorises the Jacobian by the parameters `columns` at theta. */
export function factorise(
	objective: Objective,
	theta: Float64Array,
	columns: readonly number[],
): Factor {
	const n = objective.points;
	const k = columns.length;
	const jacobian = new Float64Array(objective.size * n);
	objective.jacobian(theta, jacobian);
	const offsets = Int32Array.from(columns, (j) => j * n);
	const norms = Float64Array.from(offsets, (o) => {
		let sum = 0;
		for (let i = 0; i < n; i++) sum += jacobian[o + i] ** 2;
		return Math.sqrt(sum);
	});
	const reduced = jacobian.slice();
	reduceColumns(reduced, n, offsets, 0, k, k, new Float64Array(k));
	const r = (i: number, j: number): number =>
		i > j ? 0 : reduced[offsets[j] + i];
	const indices = Array.from(columns.keys());
	const { values, weakest } = singularValues(
		indices.map((j) => indices.map((i) => r(i, j) / (norms[j] || 1))),
	);
	const condition =
		k > 0 && values[k - 1] > 0 ? values[0] / values[k - 1] : Infinity;
	const singular = !(condition < singularCondition);
	const inverse = new Float64Array(k * k);
	if (!singular)
		inverseOfTriangle(indices.map((i) => indices.map((j) => r(i, j)))).forEach(
			(row, i) => {
				inverse.set(row, i * k);
			},
		);
	const leverage = new Float64Array(n);
	if (!singular)
		for (let i = 0; i < n; i++)
			for (let c = 0; c < k; c++) {
				let q = 0;
				for (let d = 0; d <= c; d++)
					q += jacobian[offsets[d] + i] * inverse[d * k + c];
				leverage[i] += q * q;
			}
	return {
		columns,
		norms,
		inverse,
		condition,
		weakest: weakest.map(Math.abs),
		singular,
		leverage,
	};
}

/** (J'J)^-1 = R^-1 R^-T over all parameters of the model, zero where a parameter was not among the factor's. Row by row. */
export function inverseOfNormalMatrix(
	factor: Factor,
	size: number,
): Float64Array {
	const { columns, inverse } = factor;
	const k = columns.length;
	const out = new Float64Array(size * size);
	for (let i = 0; i < k; i++)
		for (let j = 0; j < k; j++) {
			let sum = 0;
			for (let c = Math.max(i, j); c < k; c++)
				sum += inverse[i * k + c] * inverse[j * k + c];
			out[columns[i] * size + columns[j]] = sum;
		}
	return out;
}
