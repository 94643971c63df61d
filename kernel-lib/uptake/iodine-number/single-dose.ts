import { requireTrial, type Trial } from "../../bench";
import {
	anyNumberOption,
	exactRatio,
	exponentialOf,
	fixed,
	input,
	type Measured,
	measuredText,
	minus,
	named,
	naturalLog,
	ProblemError,
	problem,
	type Quantity,
	rectangular,
	requireOptions,
	stated,
	type Table,
	table,
	times,
	type WithTable,
	withTable,
} from "../../quantity";
import { type DosagePoint, dosagePoints, inUnits, measuredAt } from "./points";
import { d4607 } from "./standard";

/** Slope 1/n of the log-log line that a single dosage cannot show, as a range that is taken to hold it. */
export interface AssumedSlope {
	readonly low: number;
	readonly high: number;
}

/** What chars and carbons usually show on this line; common practice, no source. */
const usualSlope: AssumedSlope = { low: 0.1, high: 0.3 };

/** One dosage read by itself. */
export interface SingleDose {
	readonly point: DosagePoint;
	/** Uptake at 0.02 N if the slope lies in the assumed range; or what the flask allows instead. */
	readonly at0_02N: Measured<"uptake">;
	readonly slope: AssumedSlope;
	/** Full sentences. */
	readonly remarks: readonly string[];
}

/**
 * The single-dose form: each dosage by itself, brought from the residual normality that it happened to reach to 0.02 N along an assumed slope, q(0.02 N) = q (0.02/C)^(1/n). The slope enters as a rectangular
 * input, the same one for all dosages, so that the farther a residue lies from 0.02 N the wider the result. It checks nothing: no line, no scatter, no correlation. A flask that ran dry gives "at least". Shown as a
 * table: char (g), residue (N), uptake there and at 0.02 N (mg/g).
 *
 * @param slope range of 1/n that is taken to hold it; { low: 0.1, high: 0.3 } unless told otherwise (common practice, no source)
 * @throws ProblemError for a range of slopes that is not within 0 to 1, low end first
 * @example
 * uptake.singleDoses(iodineNumberTrial, { low: 0.1, high: 0.3 }).length // => 3
 * uptake.singleDoses(iodineNumberTrial).table // => "Each dosage read by itself"
 */
export function singleDoses(
	trial: Trial,
	slope: AssumedSlope = usualSlope,
): WithTable<readonly SingleDose[]> {
	requireTrial(trial);
	requireOptions(
		slope,
		{ low: anyNumberOption(), high: anyNumberOption() },
		"singleDoses",
	);
	if (!(slope.low >= 0 && slope.high <= 1 && slope.low <= slope.high))
		throw new ProblemError([
			problem(
				"slope-range",
				{ column: "slope" },
				`a slope 1/n from ${slope.low} to ${slope.high}`,
				"a range between 0 and 1, low end first",
				"Write for instance { low: 0.1, high: 0.3 }.",
			),
		]);
	const assumed = input(
		"ratio",
		(slope.low + slope.high) / 2,
		"1",
		rectangular((slope.high - slope.low) / 2),
		{
			symbol: "1/n",
			meaning: "assumed slope of the log-log line",
			source: stated("assumed, not measured"),
		},
	);
	return withTable(
		dosagePoints(trial).map((point) => oneDose(point, assumed, slope)),
		singleDoseTable,
	);
}

function oneDose(
	point: DosagePoint,
	assumed: Quantity<"ratio">,
	slope: AssumedSlope,
): SingleDose {
	if (!point.measurable)
		return {
			point,
			at0_02N: measuredAt(point).uptake,
			slope,
			remarks: [
				"It ran dry: the uptake is a lower limit, and the slope is of no use.",
			],
		};
	const target = exactRatio(
		Math.log(d4607.reportedAt_N),
		`ln(${d4607.reportedAt_N} N)`,
		"",
	);
	const normality = point.normality.in("N");
	const factor = exponentialOf(
		times(assumed, minus(target, naturalLog(inUnits(point.normality.to("N"))))),
	);
	const quantity = named(
		times(factor, point.uptake),
		"q_{0.02}",
		`uptake at ${d4607.reportedAt_N} N from flask ${point.flask.name} alone`,
	);
	const outside =
		normality < d4607.windowLow_N || normality > d4607.windowHigh_N;
	return {
		point,
		at0_02N: { is: "value", quantity },
		slope,
		remarks: outside
			? [
					`The residue of ${fixed(normality, 4)} N lies outside the window of ${d4607.windowLow_N} to ${d4607.windowHigh_N} N: weigh ${normality < d4607.windowLow_N ? "less" : "more"} char.`,
				]
			: [],
	};
}

/** Every dosage read by itself, side by side. */
function singleDoseTable(doses: readonly SingleDose[]): Table {
	return table(
		"Each dosage read by itself",
		[
			"flask",
			"treatment",
			"char (g)",
			"residue (N)",
			"uptake there (mg/g)",
			`at ${d4607.reportedAt_N} N if the slope is as assumed (mg/g)`,
			"remarks",
		],
		doses.map(({ point, at0_02N, remarks }) => {
			const { normality, uptake } = measuredAt(point);
			return [
				point.flask.name,
				point.flask.treatment,
				point.char.to("g"),
				normality,
				uptake,
				measuredText(at0_02N),
				remarks.join(" "),
			];
		}),
		[
			...[
				...new Set(
					doses.map(
						({ slope }) =>
							`Brought from the residue of each to ${d4607.reportedAt_N} N along an assumed slope of ${slope.low} to ${slope.high}.`,
					),
				),
			],
			"One dosage shows neither slope nor scatter, and no correlation can be checked: it is a quick look before a trial with three dosages, not an iodine number.",
		],
	);
}
