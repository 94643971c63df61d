import {
	type CorrelationMatrix,
	oneFactorApproximation,
	type ProductBlock,
} from "./correlation";

/** Below this a correlation is left out of account: it would gain next to nothing. */
const LEAST_SHARED = 0.1;
/** A coefficient is kept so far from 1 that a block of 500 has no steps too sharp for a table. */
const MOST_SHARED = 0.94;

/**
 * Blocks of product form whose correlations are nowhere above those of the matrix, after the signs of some coordinates are turned; correlations between blocks count as none.
 * By Slepian's inequality (1962, Bell Syst. Tech. J. 41, 463) the largest of the coordinates of a block exceeds x at most as often as it would with the lower correlations.
 */
export function blocksBelow(correlation: CorrelationMatrix): ProductBlock[] {
	const sign = oneFactorApproximation(correlation).map((l) => (l < 0 ? -1 : 1));
	const shared = (i: number, j: number): number =>
		sign[i] * sign[j] * correlation[i][j];
	return blocksOfShared(correlation.length, shared).map((members) => ({
		members,
		coefficients: coefficientsBelow(
			members.map((i) => members.map((j) => (i === j ? 1 : shared(i, j)))),
		),
	}));
}

/** Each coordinate joins the first block with all of whose members it shares enough. */
function blocksOfShared(
	size: number,
	shared: (i: number, j: number) => number,
): number[][] {
	const blocks: number[][] = [];
	for (let i = 0; i < size; i++) {
		const home = blocks.find((block) =>
			block.every((j) => shared(i, j) >= LEAST_SHARED),
		);
		if (home === undefined) blocks.push([i]);
		else home.push(i);
	}
	return blocks;
}

/** Coefficients l with l_i l_j at most the correlation, near the best product form: those of the fit, each lowered until it fits and then raised as far as the others let it. */
function coefficientsBelow(correlation: CorrelationMatrix): Float64Array {
	const size = correlation.length;
	if (size === 1) return new Float64Array(1);
	const l = oneFactorApproximation(correlation).map((v) =>
		Math.max(LEAST_SHARED, Math.min(MOST_SHARED, v)),
	);
	const most = (i: number): number => {
		let limit = MOST_SHARED;
		for (let j = 0; j < size; j++)
			if (j !== i) limit = Math.min(limit, correlation[i][j] / l[j]);
		return limit;
	};
	for (let i = 0; i < size; i++) l[i] = Math.min(l[i], most(i));
	for (let i = 0; i < size; i++) l[i] = most(i);
	return l;
}
