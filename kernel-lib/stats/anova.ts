import { requireObservations } from "./checks";
import { sumOfSquares } from "./descriptive";
import { fUpperTail } from "./f-distribution";

/** Table of a one-way analysis of variance. */
export interface OneWayAnova {
	readonly degreesOfFreedomBetween: number;
	readonly degreesOfFreedomWithin: number;
	readonly sumOfSquaresBetween: number;
	readonly sumOfSquaresWithin: number;
	readonly meanSquareBetween: number;
	/** The pooled variance within groups. */
	readonly meanSquareWithin: number;
	readonly f: number;
	readonly p: number;
	/** Share of the total sum of squares that lies between the groups. */
	readonly rSquared: number;
	/** Pooled standard deviation within groups. */
	readonly residualStandardDeviation: number;
}

/**
 * One-way analysis of variance of two or more groups, of any sizes from one observation on. The very first observation
 * is subtracted from all before anything else, so that shared leading digits do no harm. Throws where nothing is left to
 * estimate the scatter within groups from, or where there is none.
 */
export function oneWayAnova(groups: readonly ArrayLike<number>[]): OneWayAnova {
	if (groups.length < 2) {
		throw new RangeError(
			`One-way analysis of variance: ${groups.length} group(s) given; at least 2 needed.`,
		);
	}
	groups.forEach((group, index) => {
		requireObservations(
			`One-way analysis of variance, group ${index + 1}`,
			group,
			1,
		);
	});
	const origin = groups[0][0];
	const shifted = groups.map((group) =>
		Float64Array.from(group, (value) => value - origin),
	);
	const count = shifted.reduce((sum, group) => sum + group.length, 0);
	const groupMeans = shifted.map(
		(group) => group.reduce((sum, value) => sum + value, 0) / group.length,
	);
	const grandMean =
		shifted.reduce(
			(sum, group, index) => sum + group.length * groupMeans[index],
			0,
		) / count;
	const between = shifted.reduce(
		(sum, group, index) =>
			sum + group.length * (groupMeans[index] - grandMean) ** 2,
		0,
	);
	const within = shifted.reduce((sum, group) => sum + sumOfSquares(group), 0);
	const degreesOfFreedomBetween = groups.length - 1;
	const degreesOfFreedomWithin = count - groups.length;
	if (degreesOfFreedomWithin === 0 || within === 0) {
		throw new RangeError(
			"One-way analysis of variance: no scatter within the groups; expected at least one group with observations that differ.",
		);
	}
	const meanSquareBetween = between / degreesOfFreedomBetween;
	const meanSquareWithin = within / degreesOfFreedomWithin;
	const f = meanSquareBetween / meanSquareWithin;
	return {
		degreesOfFreedomBetween,
		degreesOfFreedomWithin,
		sumOfSquaresBetween: between,
		sumOfSquaresWithin: within,
		meanSquareBetween,
		meanSquareWithin,
		f,
		p: fUpperTail(f, degreesOfFreedomBetween, degreesOfFreedomWithin),
		rSquared: between / (between + within),
		residualStandardDeviation: Math.sqrt(meanSquareWithin),
	};
}
