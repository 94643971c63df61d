import {
	exact,
	input,
	named,
	type Quantity,
	stated,
	times,
} from "../../quantity";
import { type LogLogLine, logLogLine } from "../log-log-line";
import { type DosagePoint, inUnits } from "./points";

/**
 * The straight line of log uptake on log residual normality, and its value at one normality: a `LogLogLine` whose value is an uptake (`slope` is 1/n, `range` is in N), and whose `scatter`, `shared`, `readings`, `low` and
 * `high` are in mg/g instead of relative.
 */
export interface LogLine extends Omit<LogLogLine, "value"> {
	/** Uptake on the line at the asked normality, with the whole chain behind it. */
	readonly value: Quantity<"uptake">;
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
 * @throws ProblemError for fewer than three points, a point that is not above zero, or points at one normality
 */
export function logLine(points: readonly DosagePoint[], at: number): LogLine {
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
