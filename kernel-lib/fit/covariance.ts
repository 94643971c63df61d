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
	const scaled = Float64Array.from(
		{ length: k * k },
		(_, at) => r(Math.floor(at / k), at % k) / (norms[at % k] || 1),
	);
	const { largest, smallest, direction } = singularValues(scaled, k);
	const condition = smallest > 0 ? largest / smallest : Infinity;
	const singular = !(condition < singularCondition);
	const inverse = singular ? new Float64Array(k * k) : invertUpper(r, k);
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
		weakest: direction.map(Math.abs),
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

function invertUpper(
	r: (i: number, j: number) => number,
	k: number,
): Float64Array {
	const inverse = new Float64Array(k * k);
	for (let c = 0; c < k; c++)
		for (let i = c; i >= 0; i--) {
			let sum = i === c ? 1 : 0;
			for (let d = i + 1; d <= c; d++) sum -= r(i, d) * inverse[d * k + c];
			inverse[i * k + c] = sum / r(i, i);
		}
	return inverse;
}

/** Largest and smallest singular value, and the right singular vector of the smallest, by one-sided Jacobi rotations (Golub and Van Loan, section 8.6.3). */
function singularValues(
	matrix: Float64Array,
	k: number,
): { largest: number; smallest: number; direction: Float64Array } {
	const a = matrix.slice();
	const v = new Float64Array(k * k);
	for (let i = 0; i < k; i++) v[i * k + i] = 1;
	for (let sweep = 0, turned = true; turned && sweep < 60; sweep++) {
		turned = false;
		for (let p = 0; p < k; p++)
			for (let q = p + 1; q < k; q++) {
				let alpha = 0;
				let beta = 0;
				let gamma = 0;
				for (let i = 0; i < k; i++) {
					alpha += a[i * k + p] ** 2;
					beta += a[i * k + q] ** 2;
					gamma += a[i * k + p] * a[i * k + q];
				}
				if (!(Math.abs(gamma) > 1e-16 * Math.sqrt(alpha * beta))) continue;
				turned = true;
				const zeta = (beta - alpha) / (2 * gamma);
				const t = (zeta >= 0 ? 1 : -1) / (Math.abs(zeta) + Math.hypot(1, zeta));
				const cos = 1 / Math.hypot(1, t);
				for (const m of [a, v])
					for (let i = 0; i < k; i++) {
						const x = m[i * k + p];
						const y = m[i * k + q];
						m[i * k + p] = cos * (x - t * y);
						m[i * k + q] = cos * (t * x + y);
					}
			}
	}
	const lengths = Array.from({ length: k }, (_, j) => {
		let sum = 0;
		for (let i = 0; i < k; i++) sum += a[i * k + j] ** 2;
		return Math.sqrt(sum);
	});
	const smallest = Math.min(...lengths);
	const at = lengths.indexOf(smallest);
	return {
		largest: Math.max(...lengths),
		smallest,
		direction: Float64Array.from({ length: k }, (_, i) => v[i * k + at]),
	};
}
