import { requireList } from "../problem";
import { counted, refuse, requireObservations } from "./checks";
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
 * is subtracted from all before anything else, so that shared leading digits do no harm.
 * @throws ProblemError for fewer than two groups, or where nothing shows the scatter within them
 * @example
 * const table = stats.oneWayAnova([[1, 2, 3], [4, 5, 6]]);
 * table.meanSquareWithin // => 1
 * table.f // => 13.5
 */
export function oneWayAnova(groups: readonly ArrayLike<number>[]): OneWayAnova {
	requireList(groups, "a group, itself a list of numbers", "oneWayAnova");
	if (groups.length < 2) {
		refuse(
			"too-few-groups",
			`${counted(groups.length, "group")} for a one-way analysis of variance`,
			"at least 2",
			"Give each group as a list of its own: [[1.0, 1.2], [1.5, 1.4]].",
		);
	}
	groups.forEach((group, index) => {
		requireObservations(
			`group ${index + 1} of the analysis of variance`,
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
		refuse(
			"no-scatter",
			"no scatter within the groups of the analysis of variance",
			"at least one group with observations that differ",
			"Without scatter within the groups there is nothing to measure the differences between them against: measure replicates.",
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
