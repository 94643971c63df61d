import { blocksBelow } from "./bounded-largest";
import { onPanels } from "./chebyshev-panels";
import { chiNodes } from "./chi-nodes";
import {
	type CorrelationMatrix,
	oneFactorApproximation,
	type ProductBlock,
	productForm,
} from "./correlation";
import { normalCdf } from "./normal";
import { normalCube } from "./normal-cube";
import { outsideProductForm, sharpestStep } from "./product-form";

/** P(the largest of correlated standard normals exceeds x), in absolute value where two-sided; "none" where no quadrature reaches the matrix. */
export type LargestNormal =
	| {
			/** The same for one of them alone. */
			readonly single: (x: number) => number;
			/** Over that for one alone: from 1 to their number, so that the smallest tails keep their digits. */
			readonly ratio: (x: number) => number;
			readonly count: number;
			/** It may be too large, but never too small: the correlations were so many that only a bound was computed. */
			readonly bound: boolean;
	  }
	| "none";

/** More coordinates than this, without a product form, get a bound: points take seconds from here on for every number of degrees of freedom, and there are none for more than 64 dimensions. Our decision. */
const MOST_BY_POINTS = 30;

/** Beyond this the difference from the nearest product form is below 1e-6. */
const DIFFERENT_UP_TO = 4.75;
/** A product form near the matrix, but without sharp steps of its own. */
const MOST_COMMON = 0.85;
/** Points of the difference's table, so that it is good to 1e-6 for correlations of comparisons (wild matrices of five: 4e-5); with five coordinates each costs a millisecond. */
const DIFFERENCE_POINTS = 32;
const DIFFERENCE_POINTS_OF_FIVE = 20;

/**
 * The one function that all simultaneous limits of a family need: whatever the degrees of freedom, P(max T > t) is its
 * mean over the chi distribution of S, at x = t S. To about 1e-11, relative, for product form; for others to about 1e-6, absolute, where correlations are those of a few comparisons; of wild matrices the worst seen were 3e-6 (three), 3e-5 (four) and 4e-5 (five).
 */
export function largestNormal(
	correlation: CorrelationMatrix,
	twoSided: boolean,
): LargestNormal {
	const form = productForm(correlation);
	const many = twoSided && correlation.length > MOST_BY_POINTS;
	if (form.found && !(many && sharpestStep(form.blocks) < SHARP))
		return ofBlocks(form.blocks, twoSided);
	if (!twoSided) return "none";
	if (many) return boundOfMany(correlation);
	const cube = normalCube(correlation);
	if (cube === "none") return "none";
	const { single, ratio, count, bound } = ofBlocks(
		[
			{
				members: [...correlation.keys()],
				coefficients: oneFactorApproximation(correlation).map((l) =>
					Math.max(-MOST_COMMON, Math.min(MOST_COMMON, l)),
				),
			},
		],
		true,
	);
	const difference = onPanels(
		(x) => 1 - cube.inside(x) - ratio(x) * single(x),
		DIFFERENT_UP_TO,
		count < 5 ? DIFFERENCE_POINTS : DIFFERENCE_POINTS_OF_FIVE,
	);
	return {
		single,
		ratio: (x) =>
			ratio(x) + (x < DIFFERENT_UP_TO ? difference(x) / single(x) : 0),
		count,
		bound,
	};
}

/**
 * For every x at least P(|Z_i| > x for some i), of any correlations: block by block twice what the largest of them gives upwards, or what uncorrelated ones give where that is less (Sidak's inequality, 1967), the blocks
 * as if they were uncorrelated (the Gaussian correlation inequality, Royen 2014, Far East J. Theor. Stat. 48, 139).
 */
function boundOfMany(
	correlation: CorrelationMatrix,
): Exclude<LargestNormal, "none"> {
	const single = (x: number): number => 2 * normalCdf(-x);
	const blocks = blocksBelow(correlation).map(({ members, coefficients }) => ({
		size: members.length,
		upwards: ofBlocks([{ members: [...members.keys()], coefficients }], false),
	}));
	const uncorrelated = (size: number, tail: number): number =>
		-Math.expm1(size * Math.log1p(-tail));
	return {
		single,
		ratio: (x) => {
			const tail = single(x);
			if (tail === 0) return correlation.length;
			let outside = 0;
			for (const { size, upwards } of blocks)
				outside +=
					Math.min(upwards.ratio(x) * tail, uncorrelated(size, tail)) *
					(1 - outside);
			return outside / tail;
		},
		count: correlation.length,
		bound: true,
	};
}

/** Steps sharper than this would need panels too narrow to be worth a table. */
const SHARP = 0.15;
/** Width of the panels over that of the sharpest step, and points on each: relative errors below 1e-10 wherever they were looked for. */
const WIDTH = 5;
const POINTS = 28;

function ofBlocks(
	blocks: readonly ProductBlock[],
	twoSided: boolean,
): Exclude<LargestNormal, "none"> {
	const count = blocks.reduce((sum, { members }) => sum + members.length, 0);
	const single = (x: number): number => (twoSided ? 2 : 1) * normalCdf(-x);
	if (count === 1) return { single, ratio: () => 1, count, bound: false };
	const direct = (x: number): number => {
		const tail = single(x);
		if (tail === 0) return count;
		const outside = outsideProductForm(
			blocks,
			Number.POSITIVE_INFINITY,
			new Float64Array(count).fill(twoSided ? -x : Number.NEGATIVE_INFINITY),
			new Float64Array(count).fill(x),
		);
		return outside / tail;
	};
	const sharpest = sharpestStep(blocks);
	const ratio =
		sharpest < SHARP ? direct : onPanels(direct, WIDTH * sharpest, POINTS);
	return { single, ratio, count, bound: false };
}

/** A share of the sum so far that cannot matter. */
const NEGLIGIBLE = 1e-16;

/** P(max T > t) for every t up to `most` in size (0 or more, where two-sided): the mean over S = sqrt(chi-square / df). */
export function meanOverScale(
	{ single, ratio, count }: Exclude<LargestNormal, "none">,
	degreesOfFreedom: number,
	most: number,
): (t: number) => number {
	// however large t, it is reached with x = t S below the root of the degrees of freedom, or a few more
	const steepest = Math.min(Math.abs(most), Math.sqrt(degreesOfFreedom) + 6);
	const { s, weight } = chiNodes(degreesOfFreedom, steepest);
	return (t) => {
		let total = 0;
		for (let i = 0; i < s.length; i++) {
			// the weights fall, and a probability is at most 1
			if (weight[i] < NEGLIGIBLE * total) break;
			const x = t * s[i];
			const share = weight[i] * single(x);
			if (share * count > NEGLIGIBLE * total) total += share * ratio(x);
		}
		return Math.min(1, total);
	};
}
