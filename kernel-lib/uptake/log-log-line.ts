import {
	exactRatio,
	exponentialOf,
	meanOf,
	minus,
	naturalLog,
	type Problem,
	per,
	plus,
	problem,
	type Quantity,
	sharedErrors,
	throwProblems,
	times,
	total,
} from "../quantity";
import { normalQuantile, studentTQuantile } from "../stats";

/** A point of a line of logarithms; both coordinates in units of their own, so that they are pure numbers. */
export interface LogLogPoint {
	readonly x: Quantity<"ratio">;
	readonly y: Quantity<"ratio">;
	/** What it is, for messages. */
	readonly name: string;
}

/** The straight line of log y on log x, and its value at one x. */
export interface LogLogLine {
	/** y on the line at the asked x, with the whole chain behind it. */
	readonly value: Quantity<"ratio">;
	readonly slope: number;
	/** Correlation coefficient r of the logarithms. */
	readonly correlation: number;
	/** Relative standard uncertainty of the value from the scatter about the line; n - 2 degrees of freedom. */
	readonly scatter: number;
	readonly degreesOfFreedom: number;
	/** Relative standard uncertainty from errors that several points share, which the line cannot show. */
	readonly shared: number;
	/** Relative standard uncertainty from the readings of the single points as they were stated; the least that the scatter can honestly be. */
	readonly readings: number;
	/** Of the interval. */
	readonly confidence: number;
	/** Interval: of scatter and shared errors together, and never narrower than the stated reading errors and the shared errors give. */
	readonly low: number;
	readonly high: number;
	/** Which of the two the interval is. */
	readonly intervalFrom:
		| "scatter and shared errors"
		| "reading errors and shared errors";
	/** Smallest and largest x of the points. */
	readonly range: readonly [number, number];
}

/** Of the interval of a line; common practice, no source. */
const confidence = 0.95;

/** True where points lie at one x, but for the rounding of sums: no slope can be read from them. */
export function atOneX(points: readonly { readonly x: Quantity }[]): boolean {
	const x = points.map((p) => p.x.value);
	const [least, most] = [Math.min(...x), Math.max(...x)];
	return most - least <= 1e-9 * Math.abs(most);
}

const sumOf = (x: readonly number[]): number => x.reduce((a, b) => a + b, 0);

/**
 * Standard uncertainty of a value from errors that several points share, and from those of one point alone. The readings of a standardisation are readings, but every point leans on them: what counts is how many
 * points an error touches, not where it was made.
 */
function splitByPoints(
	value: Quantity<"ratio">,
	points: readonly LogLogPoint[],
): { readonly shared: number; readonly readings: number } {
	const results = points.flatMap((p) => [p.y as Quantity, p.x as Quantity]);
	const touchesSeveral = new Set(
		sharedErrors(results)
			.shared.filter(
				({ input, effect }) =>
					input.scope === "shared" ||
					points.filter(
						(_, i) => effect[2 * i] !== 0 || effect[2 * i + 1] !== 0,
					).length > 1,
			)
			.map(({ input }) => input.key),
	);
	// Given twice, so that every input is listed, readings too.
	const columns = sharedErrors([value, value]).shared;
	const size = (several: boolean): number =>
		Math.hypot(
			0,
			...columns
				.filter(({ input }) => touchesSeveral.has(input.key) === several)
				.map(({ effect }) => effect[0]),
		);
	return { shared: size(true), readings: size(false) };
}

/** What keeps points from making a line. */
function pointProblems(points: readonly LogLogPoint[]): Problem[] {
	const where = { column: "points of the line" };
	const notPositive = points
		.filter((p) => !(p.x.value > 0 && p.y.value > 0))
		.map((p) =>
			problem(
				"point-not-positive",
				where,
				`${p.name} at ${p.x} and ${p.y}`,
				"both above zero, because their logarithms are taken",
				"Leave it out of the line.",
			),
		);
	if (points.length < 3)
		return [
			problem(
				"too-few-points",
				where,
				`${points.length} points`,
				"at least three, for a line with an error",
				"Dose more flasks.",
			),
			...notPositive,
		];
	return notPositive.length === 0 && atOneX(points)
		? [
				problem(
					"points-at-one-place",
					where,
					`all ${points.length} points at ${points[0].x}, and points at one place have no slope`,
					"at least one that lies elsewhere",
					"Dose the flasks differently.",
				),
			]
		: notPositive;
}

/**
 * Least squares of ln y on ln x, read at `at`. The line is drawn through the graph of the quantities themselves, so that errors shared by all points reach the result through every point at once; the
 * scatter about the line (n - 2 degrees of freedom: one, with three points) is added to it, for the line itself does not show what is shared. Independent reading errors are not added: the scatter already
 * holds them. But three points can lie on a line by luck, and the scatter then says nothing: the interval is never narrower than the stated reading errors and the shared errors make it.
 *
 * @param atText how the asked x is written in the working
 * @throws ProblemError for fewer than three points, a point that is not above zero, or points at one x
 */
export function logLogLine(
	points: readonly LogLogPoint[],
	at: number,
	atText: string,
): LogLogLine {
	throwProblems(pointProblems(points));
	const x = points.map((p) => naturalLog(p.x));
	const y = points.map((p) => naturalLog(p.y));
	const xMean = meanOf(x);
	const yMean = meanOf(y);
	const dx = x.map((q) => minus(q, xMean));
	const dy = y.map((q) => minus(q, yMean));
	const sxx = total(dx.map((q) => times(q, q)));
	const sxy = total(dx.map((q, i) => times(q, dy[i])));
	const slope = per(sxy, sxx);
	const target = exactRatio(Math.log(at), atText, "");
	const value = exponentialOf(plus(yMean, times(slope, minus(target, xMean))));

	const n = points.length;
	const xs = x.map((q) => q.value);
	const ys = y.map((q) => q.value);
	const residualSquares = sumOf(
		ys.map(
			(v, i) => (v - yMean.value - slope.value * (xs[i] - xMean.value)) ** 2,
		),
	);
	const df = n - 2;
	const s = Math.sqrt(residualSquares / df);
	const leverage = 1 / n + (Math.log(at) - xMean.value) ** 2 / sxx.value;
	const scatter = s * Math.sqrt(leverage);
	const split = splitByPoints(value, points);
	const shared = split.shared / value.value;
	const readings = split.readings / value.value;
	const u = Math.hypot(scatter, shared);
	// Welch-Satterthwaite: only the scatter has few degrees of freedom.
	const effective =
		scatter > 0 ? df * (u / scatter) ** 4 : Number.POSITIVE_INFINITY;
	const p = 0.5 + confidence / 2;
	const byScatter = studentTQuantile(p, effective) * u;
	const byReadings = normalQuantile(p) * Math.hypot(readings, shared);
	const half = Math.max(byScatter, byReadings);
	const syy = sumOf(ys.map((v) => (v - yMean.value) ** 2));
	return {
		value,
		slope: slope.value,
		correlation: syy > 0 ? sxy.value / Math.sqrt(sxx.value * syy) : 0,
		scatter,
		degreesOfFreedom: df,
		shared,
		readings,
		confidence,
		low: value.value * Math.exp(-half),
		high: value.value * Math.exp(half),
		intervalFrom:
			byScatter >= byReadings
				? "scatter and shared errors"
				: "reading errors and shared errors",
		range: [
			Math.min(...points.map((p) => p.x.value)),
			Math.max(...points.map((p) => p.x.value)),
		],
	};
}
