import { mean, studentTQuantile } from "../../stats";
import { langmuir } from "../catalogue/index";
import { fitIsotherm } from "../isotherm-fit";
import type { IsothermPoints } from "../points";
import type { StraightLine } from "./straight-lines";

/** A plateau (mg/g) with its interval; an end that the data do not set is infinitely far away. */
export interface Plateau {
	readonly value: number;
	readonly low: number;
	readonly high: number;
}

/**
 * The plateau that a straight line gives, with its interval as the textbook has it: Student's t times the standard error of slope or intercept, carried to the plateau to first order.
 * It supposes equal, independent errors on the line's own axes.
 */
export function plateauOfLine(line: StraightLine, confidence: number): Plateau {
	const { across, up, form } = line;
	const n = across.length;
	const middle = mean(across);
	let sxx = 0;
	let rss = 0;
	across.forEach((x, i) => {
		sxx += (x - middle) ** 2;
		rss += (up[i] - line.intercept - line.slope * x) ** 2;
	});
	const s = Math.sqrt(rss / (n - 2));
	const ofSlope = s / Math.sqrt(sxx);
	const ofIntercept = s * Math.sqrt(1 / n + middle ** 2 / sxx);
	const value = line.theta[0];
	const error = {
		"1/slope": ofSlope * value ** 2,
		"1/intercept": ofIntercept * value ** 2,
		intercept: ofIntercept,
		nothing: Number.POSITIVE_INFINITY,
	}[form.plateauFrom];
	const half = studentTQuantile(0.5 + confidence / 2, n - 2) * error;
	return { value, low: value - half, high: value + half };
}

/** The plateau of the Langmuir fit to the data as they are, with the interval to quote. */
export function plateauOfFit(
	points: IsothermPoints,
	confidence: number,
): Plateau {
	const [{ value, profile }] = fitIsotherm(langmuir, points, {
		confidence,
	}).parameters;
	const none = {
		low: Number.NEGATIVE_INFINITY,
		high: Number.POSITIVE_INFINITY,
	};
	if (profile.is === "not known") return { value, ...none };
	const { low, high } = profile.value;
	return {
		value,
		low: low.kind === "open" ? none.low : low.value,
		high: high.kind === "open" ? none.high : high.value,
	};
}
