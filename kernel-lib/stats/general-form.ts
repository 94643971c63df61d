import { chebyshevSum } from "./chebyshev-panels";
import { refuse } from "./checks";
import { chiSquareQuantile } from "./chi-square";
import {
	type CorrelationMatrix,
	oneFactorApproximation,
	type ProductBlock,
} from "./correlation";
import { noteSeed } from "./drawn-seeds";
import { normalCdf, normalQuantile } from "./normal";
import {
	factorInOrder,
	type OrderedFactor,
	orderedFactor,
} from "./ordered-factor";
import { outsideProductForm } from "./product-form";
import { createSobol, SOBOL_MAX_DIMENSIONS, type Sobol } from "./sobol";

/** A probability with three standard errors of its randomised quadrature. */
export interface EstimatedProbability {
	readonly probability: number;
	readonly error: number;
}

/** P(lower[i] <= T_i <= upper[i] for all i), always at the same points, so that it varies smoothly with the limits. */
export interface BoxEstimator {
	/** At the limits that the estimator was made with. */
	readonly reference: EstimatedProbability;
	/** At other limits. */
	readonly at: (
		lower: ArrayLike<number>,
		upper: ArrayLike<number>,
	) => EstimatedProbability;
}

/** Independent scramblings of the points, whose scatter gives the error; fixed seeds, so that a result can be repeated. */
const SCRAMBLES = 8;
const SEED = "multivariate t";
/** Points of each scrambling come in blocks, which are doubled until the error is small enough or the most are reached. */
const BLOCK = 128;
const MOST_BLOCKS = 128;
const WANTED_ERROR = 3e-5;

/**
 * Estimator for the multivariate t with any correlation matrix, singular ones included: the separation of variables
 * of Genz (1992), J. Comp. Graph. Stat. 1, 141, and Genz and Bretz (2002), ibid. 11, 950, over scrambled Sobol points.
 * The same points also estimate the nearest matrix of product form, whose exact probability is known: only the
 * difference is left to the points (a control variate). `lower` and `upper` are limits typical of those to come; they
 * decide the order in which the variables are taken and how many points are used.
 */
export function boxEstimator(
	correlation: CorrelationMatrix,
	degreesOfFreedom: number,
	lower: ArrayLike<number>,
	upper: ArrayLike<number>,
): BoxEstimator {
	const factor = orderedFactor(correlation, lower, upper);
	const control = controlVariate(correlation, factor);
	const blocks = pointBlocks(degreesOfFreedom, factor.rank);

	const y = new Float64Array(factor.rank);

	function addBlock(
		number: number,
		sums: Float64Array,
		low: ArrayLike<number>,
		high: ArrayLike<number>,
	): void {
		const block = blocks(number);
		for (let point = 0; point < block.scale.length; point++) {
			let value = separated(factor, block, point, low, high, y);
			if (control.use)
				value -= separated(control.factor, block, point, low, high, y);
			sums[Math.floor(point / BLOCK)] += value;
		}
	}

	function finish(
		sums: Float64Array,
		count: number,
		low: ArrayLike<number>,
		high: ArrayLike<number>,
	): EstimatedProbability {
		const means = sums.map((sum) => sum / (count * BLOCK));
		const mean = means.reduce((total, value) => total + value, 0) / SCRAMBLES;
		const squares = means.reduce(
			(total, value) => total + (value - mean) ** 2,
			0,
		);
		const known = control.use
			? 1 - outsideProductForm(control.blocks, degreesOfFreedom, low, high)
			: 0;
		return {
			probability: Math.max(0, Math.min(1, known + mean)),
			error: 3 * Math.sqrt(squares / (SCRAMBLES * (SCRAMBLES - 1))),
		};
	}

	const sums = new Float64Array(SCRAMBLES);
	let used = 0;
	let reference: EstimatedProbability = { probability: 0, error: 1 };
	for (
		let wanted = 1;
		wanted <= MOST_BLOCKS && reference.error > WANTED_ERROR;
		wanted *= 2
	) {
		while (used < wanted) addBlock(used++, sums, lower, upper);
		reference = finish(sums, used, lower, upper);
	}
	return {
		reference,
		at: (low, high) => {
			const fresh = new Float64Array(SCRAMBLES);
			for (let number = 0; number < used; number++)
				addBlock(number, fresh, low, high);
			return finish(fresh, used, low, high);
		},
	};
}

type ControlVariate =
	| {
			readonly use: true;
			readonly factor: OrderedFactor;
			readonly blocks: readonly ProductBlock[];
	  }
	| { readonly use: false };

/** No control for a singular matrix: its points have fewer dimensions than a product form needs. */
function controlVariate(
	correlation: CorrelationMatrix,
	factor: OrderedFactor,
): ControlVariate {
	if (factor.rank < correlation.length) return { use: false };
	const coefficients = oneFactorApproximation(correlation);
	const { order } = factor;
	const inOrder = factorInOrder(
		order.map((i) =>
			order.map((j) => (i === j ? 1 : coefficients[i] * coefficients[j])),
		),
	);
	return {
		use: true,
		factor: { ...inOrder, member: inOrder.member.map((place) => order[place]) },
		blocks: [{ members: [...correlation.keys()], coefficients }],
	};
}

/** Points of all scramblings: one column per separated variable, and the value of S at each point. */
interface PointBlock {
	readonly columns: readonly Float64Array[];
	readonly scale: Float64Array;
}

/** Probability of the box as the product of one-dimensional ones along the separated variables y, at one point. */
function separated(
	factor: OrderedFactor,
	block: PointBlock,
	point: number,
	low: ArrayLike<number>,
	high: ArrayLike<number>,
	y: Float64Array,
): number {
	const { rank, firstConstraint, member, entry } = factor;
	const s = block.scale[point];
	let product = 1;
	for (let column = 0; column < rank; column++) {
		let from = Number.NEGATIVE_INFINITY;
		let to = Number.POSITIVE_INFINITY;
		for (
			let constraint = firstConstraint[column];
			constraint < firstConstraint[column + 1];
			constraint++
		) {
			const start = constraint * rank;
			let centre = 0;
			for (let before = 0; before < column; before++)
				centre += entry[start + before] * y[before];
			const pivot = entry[start + column];
			const below = (low[member[constraint]] * s - centre) / pivot;
			const above = (high[member[constraint]] * s - centre) / pivot;
			from = Math.max(from, pivot > 0 ? below : above);
			to = Math.min(to, pivot > 0 ? above : below);
		}
		const start = normalCdf(from);
		const width = normalCdf(to) - start;
		if (!(width > 0)) return 0;
		product *= width;
		if (column < rank - 1) {
			const p = start + block.columns[column][point] * width;
			y[column] = normalQuantile(Math.min(Math.max(p, 1e-300), 1 - 1e-16));
		}
	}
	return product;
}

/** Blocks made when first asked for. */
function pointBlocks(
	degreesOfFreedom: number,
	rank: number,
): (number: number) => PointBlock {
	const chi = degreesOfFreedom !== Number.POSITIVE_INFINITY;
	const dimensions = rank - 1 + (chi ? 1 : 0);
	if (dimensions > SOBOL_MAX_DIMENSIONS) {
		refuse(
			"too-many-dimensions",
			`${dimensions} dimensions for an integral of the multivariate t distribution`,
			`at most ${SOBOL_MAX_DIMENSIONS}`,
			"Compare fewer treatments at once.",
		);
	}
	noteSeed("limits of comparisons", SEED);
	const quantile = chi ? chiScaleQuantile(degreesOfFreedom) : () => 1;
	const scramblings: Sobol[] =
		dimensions === 0
			? []
			: Array.from({ length: SCRAMBLES }, (_, scramble) =>
					createSobol(dimensions, `${SEED} ${scramble}`),
				);
	const made: PointBlock[] = [];
	return (number) => {
		for (let next = made.length; next <= number; next++) {
			const columns = Array.from({ length: dimensions }, (_, dimension) => {
				const column = new Float64Array(BLOCK * SCRAMBLES);
				scramblings.forEach((sobol, scramble) => {
					sobol.fillUniform(
						dimension,
						next * BLOCK,
						column.subarray(scramble * BLOCK, (scramble + 1) * BLOCK),
					);
				});
				return column;
			});
			const last = columns[dimensions - 1];
			const scale = new Float64Array(BLOCK * SCRAMBLES);
			for (let point = 0; point < scale.length; point++)
				scale[point] = chi ? quantile(normalQuantile(last[point])) : 1;
			made.push({ columns, scale });
		}
		return made[number];
	};
}

/**
 * Quantiles of S = sqrt(chi-square / df) as a function of a normal deviate, by Chebyshev interpolation on [-6, 6]:
 * good to about 1e-9, far below the quadrature's error, and much faster than the exact quantile at every point.
 */
function chiScaleQuantile(degreesOfFreedom: number): (z: number) => number {
	const terms = 48;
	const reach = 6;
	const value = Float64Array.from({ length: terms }, (_, index) => {
		const z = reach * Math.cos((Math.PI * (index + 0.5)) / terms);
		return Math.sqrt(
			chiSquareQuantile(normalCdf(z), degreesOfFreedom) / degreesOfFreedom,
		);
	});
	const coefficient = Float64Array.from({ length: terms }, (_, order) => {
		let sum = 0;
		for (let index = 0; index < terms; index++)
			sum += value[index] * Math.cos((Math.PI * order * (index + 0.5)) / terms);
		return ((order === 0 ? 1 : 2) * sum) / terms;
	});
	return (z) => {
		const x = Math.max(-1, Math.min(1, z / reach));
		return chebyshevSum(coefficient, x);
	};
}
