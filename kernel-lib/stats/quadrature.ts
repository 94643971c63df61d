import { refuse } from "./checks";

/** Nodes and weights of a quadrature rule: the integral of f is the sum of weight[i] f(node[i]). */
export interface QuadratureRule {
	readonly node: Float64Array;
	readonly weight: Float64Array;
}

const unitRules = new Map<number, QuadratureRule>();

/**
 * Gauss-Legendre rule with n nodes on [from, to], exact for polynomials up to degree 2n - 1. Nodes by Newton's
 * iteration on the Legendre polynomial from Tricomi's starting values; accurate to rounding for n up to some hundreds.
 */
export function gaussLegendre(n: number, from = -1, to = 1): QuadratureRule {
	if (!Number.isInteger(n) || n < 1) {
		refuse(
			"number-of-nodes",
			`${n} nodes for a Gauss-Legendre rule`,
			"a whole number of at least 1",
			"Ten nodes are exact for polynomials up to degree 19.",
		);
	}
	const unit = unitRules.get(n) ?? unitRule(n);
	unitRules.set(n, unit);
	const middle = (from + to) / 2;
	const halfWidth = (to - from) / 2;
	return {
		node: unit.node.map((x) => middle + halfWidth * x),
		weight: unit.weight.map((w) => halfWidth * w),
	};
}

function unitRule(n: number): QuadratureRule {
	const node = new Float64Array(n);
	const weight = new Float64Array(n);
	for (let index = 0; index < (n + 1) / 2; index++) {
		let x =
			Math.cos((Math.PI * (index + 0.75)) / (n + 0.5)) *
			(1 - (n - 1) / (8 * n ** 3));
		let slope = 1;
		for (let iteration = 0; iteration < 20; iteration++) {
			let previous = 1;
			let value = x;
			for (let degree = 2; degree <= n; degree++) {
				const next =
					((2 * degree - 1) * x * value - (degree - 1) * previous) / degree;
				previous = value;
				value = next;
			}
			slope = (n * (x * value - previous)) / (x * x - 1);
			const move = value / slope;
			x -= move;
			if (Math.abs(move) < 1e-15) break;
		}
		if (n % 2 === 1 && index === (n - 1) / 2) x = 0;
		node[index] = -x;
		node[n - 1 - index] = x;
		weight[index] = 2 / ((1 - x * x) * slope * slope);
		weight[n - 1 - index] = weight[index];
	}
	return { node, weight };
}

/**
 * Integral of f over the finite interval [from, to]. Intervals are halved until a 20-node Gauss-Legendre rule and its
 * two halves agree to `tolerance` (relative to the whole integral's size); at most 2000 intervals, then it throws.
 */
export function integrate(
	f: (x: number) => number,
	from: number,
	to: number,
	tolerance = 1e-12,
): number {
	const waiting: { from: number; to: number; value: number }[] = [
		{ from, to, value: onePanel(f, from, to) },
	];
	let size = Math.abs(waiting[0].value);
	let total = 0;
	for (let used = 0; used < 2000; used++) {
		const panel = waiting.pop();
		if (panel === undefined) return total;
		const middle = (panel.from + panel.to) / 2;
		const left = onePanel(f, panel.from, middle);
		const right = onePanel(f, middle, panel.to);
		size = Math.max(size, Math.abs(total + left + right));
		if (Math.abs(left + right - panel.value) <= tolerance * size) {
			total += left + right;
		} else {
			waiting.push(
				{ from: panel.from, to: middle, value: left },
				{ from: middle, to: panel.to, value: right },
			);
		}
	}
	refuse(
		"integral-not-settled",
		`an integral from ${from} to ${to} that is not settled to ${tolerance} after 2000 intervals`,
		"an integrand without singularities",
		"Split the range where the integrand is singular, or allow a larger tolerance.",
	);
}

function onePanel(f: (x: number) => number, from: number, to: number): number {
	const { node, weight } = gaussLegendre(20, from, to);
	let sum = 0;
	for (let index = 0; index < node.length; index++)
		sum += weight[index] * f(node[index]);
	return sum;
}
