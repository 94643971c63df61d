import {
	exact,
	input,
	named,
	type Quantity,
	stated,
	times,
} from "../../quantity";
import { logLogLine } from "../log-log-line";
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

/**
 * Least squares of ln(uptake) on ln(normality), read at `at` (N); how its errors are reckoned stands at `logLogLine`.
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
	const line = logLogLine(
		points.map((p) => ({
			x: inUnits(p.normality.to("N")),
			y: inUnits(p.uptake.to("mg/g")),
			name: `Flask ${p.flask.name}`,
		})),
		at,
		`ln(${at} N)`,
	);
	const value = named(
		times(line.value, oneMilligramPerGram),
		"q_{line}",
		`uptake on the log-log line at ${at} N`,
	);
	return {
		...line,
		value,
		scatter: value.value * line.scatter,
		shared: value.value * line.shared,
		readings: value.value * line.readings,
	};
}
