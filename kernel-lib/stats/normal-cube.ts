import type { CorrelationMatrix } from "./correlation";
import { normalCdf } from "./normal";
import { gaussLegendre, type QuadratureRule } from "./quadrature";

/** More coordinates would need too many nested sums. */
const MOST_COORDINATES = 5;
/** Own standard deviation of a coordinate given those before it; with less the inner integrals have steps that few nodes miss. */
const LEAST_OWN = 0.2;
/** Correlation of the last two given the others, as far as Plackett's integral is met by its nodes. */
const MOST_TIED = 0.97;
/** The normal density beyond this is below 1e-8. */
const FAR = 6;
const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);

/** P(|Z_i| <= x for all i) of correlated standard normals as a function of x, where nested quadrature reaches about 1e-6 up to x = 5 and far better below 3; "none" for other matrices. */
export type NormalCube = { readonly inside: (x: number) => number } | "none";

/**
 * Of up to five coordinates the last two are taken together by Plackett's integral over their correlation (1954, Biometrika 41, 351), the others by Gauss-Legendre rules over what their
 * limits leave of the line, the most independent outermost.
 */
export function normalCube(correlation: CorrelationMatrix): NormalCube {
	const size = correlation.length;
	if (size < 3 || size > MOST_COORDINATES) return "none";
	const rows = factorByLargestPivot(correlation);
	const own = rows.map((row, i) => row[i]);
	const [before, last] = [rows[size - 2], rows[size - 1]];
	const spread = Math.hypot(last[size - 2], last[size - 1]);
	const tied = last[size - 2] / spread;
	if (
		!own.slice(0, size - 1).every((o) => o > LEAST_OWN) ||
		!(spread > LEAST_OWN && Math.abs(tied) < MOST_TIED)
	)
		return "none";
	const pair = rectangleOf(tied);
	const y = new Float64Array(size);
	return {
		inside: (x) => {
			const rule = gaussLegendre(Math.ceil(6 + 2.2 * x));
			const innermost = (): number => {
				const a = centreOf(before, y, size - 2);
				const b = centreOf(last, y, size - 2);
				const p = own[size - 2];
				return pair(
					(-x - a) / p,
					(x - a) / p,
					(-x - b) / spread,
					(x - b) / spread,
				);
			};
			const level = (depth: number): number =>
				depth === size - 2
					? innermost()
					: overOne(rows[depth], depth, x, rule, y, () => level(depth + 1));
			return level(0);
		},
	};
}

function centreOf(row: Float64Array, y: Float64Array, before: number): number {
	let centre = 0;
	for (let k = 0; k < before; k++) centre += row[k] * y[k];
	return centre;
}

/** Integral over one coordinate between its limits, given those before it; the outermost is symmetric. */
function overOne(
	row: Float64Array,
	depth: number,
	x: number,
	{ node, weight }: QuadratureRule,
	y: Float64Array,
	inner: () => number,
): number {
	const centre = centreOf(row, y, depth);
	const from = depth === 0 ? 0 : Math.max(-FAR, (-x - centre) / row[depth]);
	const to = Math.min(FAR, (x - centre) / row[depth]);
	if (!(to > from)) return 0;
	const middle = (from + to) / 2;
	const half = (to - from) / 2;
	let sum = 0;
	for (let i = 0; i < node.length; i++) {
		const z = middle + half * node[i];
		y[depth] = z;
		sum += weight[i] * Math.exp(-0.5 * z * z) * inner();
	}
	return ((depth === 0 ? 2 : 1) * half * sum) / ROOT_TWO_PI;
}

/** P(a1 <= X <= b1, a2 <= Y <= b2) of two standard normals with this correlation. */
function rectangleOf(
	rho: number,
): (a1: number, b1: number, a2: number, b2: number) => number {
	const nodes = Math.abs(rho) < 0.5 ? 6 : Math.abs(rho) < 0.85 ? 10 : 14;
	const { node, weight } = gaussLegendre(nodes, 0, Math.asin(rho));
	const twiceSine = node.map((t) => 2 * Math.sin(t));
	const twiceSquare = node.map((t) => 2 * Math.cos(t) ** 2);
	return (a1, b1, a2, b2) => {
		const [s1, t1, s2, t2] = [a1 * a1, b1 * b1, a2 * a2, b2 * b2];
		const [aa, ab, ba, bb] = [a1 * a2, a1 * b2, b1 * a2, b1 * b2];
		let sum = 0;
		for (let i = 0; i < nodes; i++) {
			const s = twiceSine[i];
			const c = twiceSquare[i];
			sum +=
				weight[i] *
				(Math.exp((bb * s - t1 - t2) / c) -
					Math.exp((ab * s - s1 - t2) / c) -
					Math.exp((ba * s - t1 - s2) / c) +
					Math.exp((aa * s - s1 - s2) / c));
		}
		return (
			(normalCdf(b1) - normalCdf(a1)) * (normalCdf(b2) - normalCdf(a2)) +
			sum / (2 * Math.PI)
		);
	};
}

/** Rows of the Cholesky factor, next the coordinate that is most independent of those before it. */
function factorByLargestPivot(correlation: CorrelationMatrix): Float64Array[] {
	const size = correlation.length;
	const rows = correlation.map(() => new Float64Array(size));
	const left = [...correlation.keys()];
	const order: number[] = [];
	for (let column = 0; column < size; column++) {
		const variances = left.map((i) =>
			rows[i].reduce((v, entry) => v - entry * entry, 1),
		);
		const [next] = left.splice(variances.indexOf(Math.max(...variances)), 1);
		const own = Math.sqrt(Math.max(0, ...variances));
		order.push(next);
		rows[next][column] = own;
		for (const i of left) {
			const shared = centreOf(rows[i], rows[next], column);
			rows[i][column] = own > 0 ? (correlation[i][next] - shared) / own : 0;
		}
	}
	return order.map((i) => rows[i]);
}
