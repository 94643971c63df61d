import { chiNodes } from "./chi-nodes";
import type { ProductBlock } from "./correlation";
import { normalCdf, normalDensity } from "./normal";
import { gaussLegendre, type QuadratureRule } from "./quadrature";

/**
 * P(not every lower[i] <= T_i <= upper[i]) for a multivariate t whose correlations have product form, block by block:
 * given S and the block's common normal z the coordinates are independent, T_i S = l_i z + sqrt(1 - l_i^2) e_i
 * (Dunnett 1955, J. Am. Stat. Assoc. 50, 1096, for unequal groups). The outside probability is what is summed, so that
 * small p-values keep their relative accuracy.
 */
export function outsideProductForm(
	blocks: readonly ProductBlock[],
	degreesOfFreedom: number,
	lower: ArrayLike<number>,
	upper: ArrayLike<number>,
): number {
	const nodes = chiNodes(degreesOfFreedom, largestFiniteLimit(lower, upper));
	const prepared = blocks.map((block) => prepareBlock(block, lower, upper));
	let total = 0;
	for (let index = 0; index < nodes.s.length; index++) {
		if (nodes.weight[index] < NEGLIGIBLE * total) break;
		let outside = 0;
		for (const block of prepared)
			outside += block(nodes.s[index]) * (1 - outside);
		total += nodes.weight[index] * outside;
	}
	return Math.min(1, total);
}

/** A probability is at most 1, so nodes with less than this share of the sum so far cannot matter. */
const NEGLIGIBLE = 1e-18;

function largestFiniteLimit(
	lower: ArrayLike<number>,
	upper: ArrayLike<number>,
): number {
	let largest = 0;
	for (let index = 0; index < lower.length; index++) {
		for (const limit of [lower[index], upper[index]]) {
			if (Number.isFinite(limit)) largest = Math.max(largest, Math.abs(limit));
		}
	}
	return largest;
}

/** A coordinate given its block's common normal z: T_i S = l z + own e_i, own^2 = 1 - l^2; alike coordinates are counted, not repeated. */
interface Coordinate {
	readonly l: number;
	readonly own: number;
	readonly lower: number;
	readonly upper: number;
	times: number;
}

/** Coordinates with a smaller own part count as fully tied to the common normal: rounding of the coefficient reaches so far. */
const TIED = 1e-7;
/** From here on the trapezoidal rule would need more nodes than panels laid around the steps. */
const SHARP = 0.15;

/** Own part of the coordinate that follows its block's common normal most closely: the width of the sharpest step of the integrand, less where many coordinates make their steps together. */
export function sharpestStep(blocks: readonly ProductBlock[]): number {
	let sharpest = 1;
	for (const { members, coefficients } of blocks)
		if (members.length > 1)
			for (const l of coefficients)
				sharpest = Math.min(
					sharpest,
					Math.sqrt((1 - l) * (1 + l)) * togetherness(members.length),
				);
	return sharpest;
}

/** How much sharper steps become where many coordinates make them at once; 1 up to ten. */
function togetherness(count: number): number {
	return 1 / Math.sqrt(1 + Math.log(Math.max(1, count / 10)));
}

function prepareBlock(
	block: ProductBlock,
	lower: ArrayLike<number>,
	upper: ArrayLike<number>,
): (s: number) => number {
	const free: Coordinate[] = [];
	const tied: Coordinate[] = [];
	block.members.forEach((member, index) => {
		const l = block.coefficients[index];
		const own = Math.sqrt((1 - l) * (1 + l));
		const coordinate: Coordinate = {
			l,
			own,
			lower: lower[member],
			upper: upper[member],
			times: 1,
		};
		const twin = free.find(
			(other) =>
				other.l === l &&
				other.lower === coordinate.lower &&
				other.upper === coordinate.upper,
		);
		if (own < TIED) tied.push(coordinate);
		else if (twin) twin.times += 1;
		else free.push(coordinate);
	});
	if (block.members.length === 1) return (s) => outsideGiven(free, 0, s);
	const sharpest =
		Math.min(1, ...free.map(({ own }) => own)) *
		togetherness(block.members.length);
	if (tied.length === 0 && sharpest > SHARP) {
		const even = free.every(
			(coordinate) => coordinate.lower === -coordinate.upper,
		);
		const rule = even ? evenNormalRule(sharpest) : normalRule(sharpest);
		return (s) => outsideMean(rule, free, s);
	}
	return (s) => outsideBetweenTies(free, tied, s);
}

/** Squares of two limits this far apart: the farther tail is below 1e-17 of the nearer one. */
const OUT_OF_REACH = 80;

/** P(Z < below) + P(Z < above); a limit at minus infinity is none. */
function bothTails(below: number, above: number): number {
	const near = Math.max(below, above);
	const far = Math.min(below, above);
	if (near === Number.NEGATIVE_INFINITY) return 0;
	const reach = Math.min(near, 0);
	return far < 0 && far * far - reach * reach > OUT_OF_REACH
		? normalCdf(near)
		: normalCdf(near) + normalCdf(far);
}

/** Probability that some coordinate leaves its limits, given z and S. */
function outsideGiven(
	coordinates: readonly Coordinate[],
	z: number,
	s: number,
): number {
	let outside = 0;
	for (const { l, own, lower, upper, times } of coordinates) {
		const centre = l * z;
		const tail = bothTails(
			(lower * s - centre) / own,
			(centre - upper * s) / own,
		);
		for (let copy = 0; copy < times; copy++) outside += tail * (1 - outside);
	}
	return outside;
}

/** Mean of the above over z; the rule's weights fall, and what follows a negligible weight is negligible. */
function outsideMean(
	rule: QuadratureRule,
	coordinates: readonly Coordinate[],
	s: number,
): number {
	let sum = 0;
	for (let index = 0; index < rule.node.length; index++) {
		if (rule.weight[index] < NEGLIGIBLE * sum) break;
		sum += rule.weight[index] * outsideGiven(coordinates, rule.node[index], s);
	}
	return sum;
}

/** Coordinates tied to z confine z itself to an interval; the others may have steep steps in z, around which panels are laid. */
function outsideBetweenTies(
	free: readonly Coordinate[],
	tied: readonly Coordinate[],
	s: number,
): number {
	let from = Number.NEGATIVE_INFINITY;
	let to = Number.POSITIVE_INFINITY;
	for (const { l, lower, upper } of tied) {
		from = Math.max(from, (l > 0 ? lower : -upper) * s);
		to = Math.min(to, (l > 0 ? upper : -lower) * s);
	}
	if (!(from < to)) return 1;
	const edges = panelEdges(free, s, Math.max(from, -FAR), Math.min(to, FAR));
	let between = 0;
	for (let panel = 1; panel < edges.length; panel++) {
		const { node, weight } = gaussLegendre(20, edges[panel - 1], edges[panel]);
		for (let index = 0; index < node.length; index++) {
			between +=
				weight[index] *
				normalDensity(node[index]) *
				outsideGiven(free, node[index], s);
		}
	}
	return Math.min(1, normalCdf(from) + normalCdf(-to) + between);
}

function panelEdges(
	coordinates: readonly Coordinate[],
	s: number,
	from: number,
	to: number,
): number[] {
	const edges = [from, to];
	for (let edge = Math.ceil(from); edge < to; edge++) edges.push(edge);
	for (const { l, own, lower, upper } of coordinates) {
		for (const limit of [lower, upper]) {
			for (let widths = -9; widths <= 9; widths += 3)
				edges.push((limit * s + widths * own) / l);
		}
	}
	return edges
		.filter((edge) => edge >= from && edge <= to)
		.sort((a, b) => a - b);
}

/** Standard normal weight beyond this is below 1e-38. */
const FAR = 13;

/** Step of the trapezoidal rule, as a share of the sharpest step of the integrand: errors below 1e-12 up to ten coordinates. */
const STEP = 0.55;

/** Rules by the sharpness that they were made for, the last few. */
function remembered(
	make: (sharpest: number) => QuadratureRule,
): (sharpest: number) => QuadratureRule {
	const made = new Map<number, QuadratureRule>();
	return (sharpest) => {
		const rule = made.get(sharpest) ?? make(sharpest);
		if (made.size > 20) made.clear();
		made.set(sharpest, rule);
		return rule;
	};
}

/** Trapezoidal rule over the standard normal density, from the middle outwards, for an integrand with steps no sharper than `sharpest`. */
const normalRule = remembered((sharpest) => {
	const right = evenNormalRule(sharpest);
	const node = Float64Array.from(
		{ length: 2 * right.node.length - 1 },
		(_, index) => (index % 2 === 0 ? -1 : 1) * right.node[Math.ceil(index / 2)],
	);
	const weight = Float64Array.from(
		node,
		(_, index) => right.weight[Math.ceil(index / 2)] / (index === 0 ? 1 : 2),
	);
	return { node, weight };
});

/** The same for an even integrand: the nodes from zero upwards, those above zero with both sides' weight. */
const evenNormalRule = remembered((sharpest) => {
	const step = STEP * sharpest;
	const node = Float64Array.from(
		{ length: Math.ceil(FAR / step) + 1 },
		(_, index) => index * step,
	);
	return {
		node,
		weight: node.map(
			(z, index) => (index === 0 ? 1 : 2) * step * normalDensity(z),
		),
	};
});
