import {
	exact,
	exactRatio,
	exponentialOf,
	input,
	meanOf,
	minus,
	named,
	naturalLog,
	per,
	plus,
	type Quantity,
	sharedErrors,
	stated,
	times,
	total,
} from "../../quantity";
import { normalQuantile, studentTQuantile } from "../../stats";
import { type DosagePoint, inUnits } from "./points";

/** The straight line of log uptake on log residual normality, and its value at one normality. */
export interface LogLine {
	/** Uptake on the line at the asked normality, with the whole chain behind it. */
	readonly value: Quantity<"uptake">;
	/** Slope, 1/n. */
	readonly slope: number;
	/** Correlation coefficient r of the logarithms. */
	readonly correlation: number;
	/** Standard uncertainty of the value from the scatter about the line, mg/g; n - 2 degrees of freedom. */
	readonly scatter: number;
	readonly degreesOfFreedom: number;
	/** Standard uncertainty of the value from errors that all flasks share (normalities, calibrations), which the line cannot show; mg/g. */
	readonly shared: number;
	/** Standard uncertainty of the value from the readings of the single flasks as they were stated (end point, titre, weighing), mg/g; the least that the scatter can honestly be. */
	readonly readings: number;
	/** 95 % interval, mg/g: of scatter and shared errors together, and never narrower than the stated reading errors and the shared errors give. */
	readonly low: number;
	readonly high: number;
	/** Which of the two the interval is. */
	readonly intervalFrom:
		| "scatter and shared errors"
		| "reading errors and shared errors";
	/** Smallest and largest residual normality of the points. */
	readonly range: readonly [number, number];
}

const oneMilligramPerGram: Quantity<"uptake"> = input(
	"uptake",
	1,
	"mg/g",
	exact,
	{ symbol: "1 mg/g", source: stated("unit") },
);

const sumOf = (x: readonly number[]): number => x.reduce((a, b) => a + b, 0);

/**
 * Standard uncertainty of a value from errors that several flasks share, and from those of one flask alone. The readings of a standardisation are readings, but every flask leans on them: what counts is how many
 * flasks an error touches, not where it was made.
 */
function splitByFlasks(
	value: Quantity<"uptake">,
	points: readonly DosagePoint[],
): { readonly shared: number; readonly readings: number } {
	const results = points.flatMap((p) => [
		p.uptake as Quantity,
		p.normality as Quantity,
	]);
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

/**
 * Least squares of ln(uptake) on ln(normality), read at `at` (N). The line is drawn through the graph of the quantities themselves, so that errors shared by all flasks reach the result
 * through every point at once; the scatter about the line (n - 2 degrees of freedom: one, with three dosages) is added to it, for the line itself does not show what is shared.
 * Independent reading errors are not added: the scatter already holds them. But three points can lie on a line by luck, and the scatter then says nothing: the interval is never narrower than the
 * stated reading errors and the shared errors make it.
 *
 * @throws RangeError for fewer than three points or a point that is not above zero
 */
export function logLine(points: readonly DosagePoint[], at: number): LogLine {
	if (points.length < 3)
		throw new RangeError(
			`A line with an error needs at least three dosages, found ${points.length}.`,
		);
	for (const p of points) {
		if (!(p.uptake.value > 0) || !(p.normality.value > 0))
			throw new RangeError(
				`Flask ${p.flask.name} has an uptake of ${p.uptake} at ${p.normality}; a logarithm needs both above zero.`,
			);
	}
	const x = points.map((p) => naturalLog(inUnits(p.normality.to("N"))));
	const y = points.map((p) => naturalLog(inUnits(p.uptake.to("mg/g"))));
	const xMean = meanOf(x);
	const yMean = meanOf(y);
	const dx = x.map((q) => minus(q, xMean));
	const dy = y.map((q) => minus(q, yMean));
	const sxx = total(dx.map((q) => times(q, q)));
	const sxy = total(dx.map((q, i) => times(q, dy[i])));
	const slope = per(sxy, sxx);
	const target = exactRatio(Math.log(at), `ln(${at} N)`, "");
	const logValue = plus(yMean, times(slope, minus(target, xMean)));
	const value = named(
		times(exponentialOf(logValue), oneMilligramPerGram),
		"q_{line}",
		`uptake on the log-log line at ${at} N`,
	);

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
	const scatter = value.value * s * Math.sqrt(leverage);
	const { shared, readings } = splitByFlasks(value, points);
	const u = Math.hypot(scatter, shared);
	// Welch-Satterthwaite: only the scatter has few degrees of freedom.
	const effective =
		scatter > 0 ? df * (u / scatter) ** 4 : Number.POSITIVE_INFINITY;
	const byScatter = studentTQuantile(0.975, effective) * u;
	const byReadings = normalQuantile(0.975) * Math.hypot(readings, shared);
	const relativeHalf = Math.max(byScatter, byReadings) / value.value;
	const syy = sumOf(ys.map((v) => (v - yMean.value) ** 2));
	return {
		value,
		slope: slope.value,
		correlation: syy > 0 ? sxy.value / Math.sqrt(sxx.value * syy) : 0,
		scatter,
		degreesOfFreedom: df,
		shared,
		readings,
		low: value.value * Math.exp(-relativeHalf),
		high: value.value * Math.exp(relativeHalf),
		intervalFrom:
			byScatter >= byReadings
				? "scatter and shared errors"
				: "reading errors and shared errors",
		range: [
			Math.min(...points.map((p) => p.normality.in("N"))),
			Math.max(...points.map((p) => p.normality.in("N"))),
		],
	};
}
