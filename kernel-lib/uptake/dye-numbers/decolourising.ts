import {
	minus,
	named,
	type Problem,
	per,
	problem,
	type Quantity,
	throwProblems,
} from "../../quantity";
import { type LogLogLine, type LogLogPoint, logLogLine } from "../log-log-line";

/**
 * Share of a colour that was removed, (A0 - A)/A0, at one wavelength, dose and time; see `caramelDefinitions`.
 *
 * @throws ProblemError for a solution that had no colour
 */
export function colourRemoved(
	before: Quantity<"absorbance">,
	after: Quantity<"absorbance">,
): Quantity<"ratio"> {
	if (!(before.value > 0))
		throwProblems([
			problem(
				"no-colour",
				{ column: "absorbance before" },
				`${before}`,
				"a colour to remove, with an absorbance above 0",
				"Look up the reading of the untreated solution.",
			),
		]);
	return named(
		(per(minus(before, after), before) as Quantity<"ratio">).to("%"),
		"R",
		"share of the colour removed",
	);
}

/** Char per volume, as a pure number in one unit for all doses (g/L, say), and the share of the colour that was left. */
export interface ColourDose {
	readonly dose: Quantity<"ratio">;
	readonly left: Quantity<"ratio">;
}

export interface RelativeDecolourising {
	/** Dose of the reference over that of the sample at the colour asked for, in percent. */
	readonly percent: number;
	/** 95 % interval, from the scatter of both lines and their errors, taken to be independent. */
	readonly low: number;
	readonly high: number;
}

function doseLine(points: readonly ColourDose[], left: number) {
	const named_: LogLogPoint[] = points.map((p, i) => ({
		x: p.left,
		y: p.dose,
		name: `dose ${i + 1}`,
	}));
	return logLogLine(named_, left, `ln(${left})`);
}

function outsideOf(
	{ range: [least, most] }: LogLogLine,
	what: string,
	left: number,
): Problem[] {
	return left >= least && left <= most
		? []
		: [
				problem(
					"colour-outside",
					{ column: "colour left" },
					`a share of ${left}, while the doses of the ${what} left ${least.toPrecision(3)} to ${most.toPrecision(3)}`,
					"a share within both, because nothing is read beyond the points",
					"Choose another share, or dose further.",
				),
			];
}

/**
 * Decolourising of a sample against a reference char: both need some dose to leave a given share of the colour; 100 times reference over sample. Each dose is read on its own log-log line of dose against
 * colour left, within its points.
 *
 * @param left share of the colour that both leave, e.g. 0.1
 * @throws ProblemError for fewer than three doses of either, or a share outside the points
 */
export function relativeDecolourising(
	sample: readonly ColourDose[],
	reference: readonly ColourDose[],
	left: number,
): RelativeDecolourising {
	const [s, r] = [doseLine(sample, left), doseLine(reference, left)];
	throwProblems([
		...outsideOf(s, "sample", left),
		...outsideOf(r, "reference", left),
	]);
	const percent = (100 * r.value.value) / s.value.value;
	const half = Math.hypot(
		...[s, r].map((line) => Math.log(line.high / line.value.value)),
	);
	return {
		percent,
		low: percent * Math.exp(-half),
		high: percent * Math.exp(half),
	};
}
