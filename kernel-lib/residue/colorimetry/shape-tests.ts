import { fUpperTail } from "../../stats";
import { type CalibrationLine, type CalibrationPoint, powersOf } from "./line";
import { fitPolynomial, type Powers } from "./polynomial";

/** An F test of whether the readings contradict the shape of a line. */
export type ShapeTest =
	| {
			readonly is: "value";
			readonly F: number;
			/** Of numerator and denominator. */
			readonly degreesOfFreedom: readonly [number, number];
			readonly p: number;
			/** True where the readings contradict the line at 5 %. */
			readonly contradicts: boolean;
	  }
	| { readonly is: "not available"; readonly because: string };

function tested(
	numerator: number,
	df1: number,
	denominator: number,
	df2: number,
): ShapeTest {
	if (!(denominator > 0))
		return {
			is: "not available",
			because: "what it would be measured against does not scatter at all",
		};
	const F = numerator / df1 / (denominator / df2);
	const p = fUpperTail(F, df1, df2);
	return {
		is: "value",
		F,
		degreesOfFreedom: [df1, df2],
		p,
		contradicts: p < 0.05,
	};
}

/** Sum of w (S - weighted mean)² within the readings of one concentration. */
function scatterWithin(points: readonly CalibrationPoint[]): number {
	const weight = points.reduce((s, p) => s + p.weight, 0);
	const mean = points.reduce((s, p) => s + p.weight * p.signal, 0) / weight;
	return points.reduce((s, p) => s + p.weight * (p.signal - mean) ** 2, 0);
}

/**
 * Lack of fit: whether the means of standards that were read more than once lie further from the line than those readings scatter. F = [lack of fit/(levels - p)]/[pure error/(n - levels)], p coefficients.
 */
export function lackOfFit(line: CalibrationLine): ShapeTest {
	const levels = new Map<number, CalibrationPoint[]>();
	for (const p of line.points)
		levels.set(p.concentration, [...(levels.get(p.concentration) ?? []), p]);
	const n = line.points.length;
	const coefficients = powersOf[line.model].length;
	if (n === levels.size)
		return {
			is: "not available",
			because: "no standard was read more than once",
		};
	if (levels.size <= coefficients)
		return {
			is: "not available",
			because: `${levels.size} concentrations leave nothing to test beside ${coefficients} coefficients`,
		};
	const pure = [...levels.values()].reduce((s, p) => s + scatterWithin(p), 0);
	const all = line.points.reduce((s, p) => s + p.weight * p.residual ** 2, 0);
	return tested(
		Math.max(0, all - pure),
		levels.size - coefficients,
		pure,
		n - levels.size,
	);
}

/**
 * Mandel's test, as ISO 8466-1 has it (from memory): whether a bent line describes the same readings better than this straight one. F = (gain in residual squares)/(residual variance of the bent line), with
 * 1 and n - 3 degrees of freedom.
 */
export function bendTest(line: CalibrationLine): ShapeTest {
	if (line.model !== "straight")
		return {
			is: "not available",
			because: "it is for straight lines with an intercept",
		};
	const n = line.points.length;
	const x = line.points.map((p) => p.concentration);
	if (n < 4 || new Set(x).size < 3)
		return {
			is: "not available",
			because: "it takes four readings at three concentrations",
		};
	const squares = (powers: Powers): number =>
		fitPolynomial(
			x,
			line.points.map((p) => p.signal),
			line.points.map((p) => p.weight),
			powers,
		).residualSquares;
	const bent = squares([0, 1, 2]);
	return tested(Math.max(0, squares([0, 1]) - bent), 1, bent, n - 3);
}

/**
 * Whether readings scatter alike at both ends of a line, as ISO 8466-1 asks for (from memory; there with ten readings each): F = s² of the end that scatters more over that of the other, two-sided, from the
 * standards at the lowest and at the highest concentration.
 */
export function evenScatter(line: CalibrationLine): ShapeTest {
	const at = (c: number): CalibrationPoint[] =>
		line.points.filter((p) => p.concentration === c);
	const [low, high] = [at(line.low), at(line.high)];
	if (low.length < 2 || high.length < 2)
		return {
			is: "not available",
			because: "the lowest and the highest standard were not both read twice",
		};
	const variance = (points: readonly CalibrationPoint[]): number =>
		scatterWithin(points) / (points.length - 1);
	const ends = [
		{ variance: variance(low), df: low.length - 1 },
		{ variance: variance(high), df: high.length - 1 },
	].sort((a, b) => b.variance - a.variance);
	const one = tested(
		ends[0].variance * ends[0].df,
		ends[0].df,
		ends[1].variance * ends[1].df,
		ends[1].df,
	);
	if (one.is === "not available") return one;
	const p = Math.min(1, 2 * one.p);
	return { ...one, p, contradicts: p < 0.05 };
}
