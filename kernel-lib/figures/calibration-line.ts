import type { Trial } from "../bench";
import {
	confidenceOption,
	confidenceText,
	usualConfidence,
} from "../isotherms";
import {
	listed,
	problem,
	quoted,
	requireOptions,
	requireResult,
	throwProblems,
} from "../quantity";
import {
	type CalibrationLine,
	calibrationLines,
	type DetectionLimits,
	detectionLimits,
	predictionBand,
	type ReadResidue,
	type Residue,
	readBackwards,
	residues,
} from "../residue";
import type { Arrow, Figure, Layer, Point } from "./description";
import { calibrationLineKind } from "./doors";
import { figure } from "./figure";
import { onlyLimits } from "./flask-marks";
import { countOf, roundedTo, sentence } from "./words";

const places = 60;

/** A flask that was read on a line. */
export interface OnLine {
	readonly residue: ReadResidue;
	readonly on: Extract<ReadResidue["reading"], { is: "on a line" }>["on"];
}

/** Those of some residues that were read on the line. */
export function readResidues(
	line: CalibrationLine,
	found: readonly Residue[],
): OnLine[] {
	return found.flatMap((residue) =>
		residue.is === "read" &&
		residue.reading.is === "on a line" &&
		residue.reading.on.line.name === line.name
			? [{ residue, on: residue.reading.on }]
			: [],
	);
}

function signalOf({ on }: OnLine, line: CalibrationLine): number {
	return on.signal.in(line.signalUnit as never);
}

/** What was read on a line, as the figure shows it. */
interface Marks {
	readonly points: readonly Point[];
	readonly arrows: readonly Arrow[];
	/** Names of the flasks that are points, from left to right. */
	readonly fromLeft: readonly string[];
}

function whatIs({ residue: { flask } }: OnLine): string {
	return `flask ${flask.name}${flask.treatment === "" ? "" : `, ${flask.treatment}`}`;
}

/** A flask's residue on the line at its reading; none for a bound. */
function pointOf(
	r: OnLine,
	line: CalibrationLine,
	confidence: number,
): Point[] {
	const { concentration, signal, readings } = r.on;
	if (concentration.is !== "value") return [];
	const y = signalOf(r, line);
	const found = readBackwards(line, y, readings, confidence);
	return [
		{
			x: found.concentration,
			y,
			xInterval: { low: found.interval.low, high: found.interval.high },
			hover: `${whatIs(r)}\nin the cuvette ${concentration.quantity}\nreading ${roundedTo(y, signal.standardUncertainty)}`,
		},
	];
}

/** An arrow from the limit that a residue is known to lie beyond; none for a value. */
function arrowOf(r: OnLine, line: CalibrationLine): Arrow[] {
	const { concentration } = r.on;
	if (concentration.is === "value") return [];
	const above = concentration.is === "at least";
	return [
		{
			x: above ? line.high : line.low,
			y: signalOf(r, line),
			towards: above ? "right" : "left",
			label: r.residue.flask.name,
			hover: `${whatIs(r)}\nin the cuvette ${concentration.is} ${concentration.quantity}\n${concentration.because}`,
		},
	];
}

function marksOf(
	line: CalibrationLine,
	read: readonly OnLine[],
	confidence: number,
): Marks {
	const valued = read.flatMap((r) =>
		pointOf(r, line, confidence).map((point) => ({
			point,
			name: r.residue.flask.name,
		})),
	);
	return {
		points: valued.map((v) => v.point),
		arrows: read.flatMap((r) => arrowOf(r, line)),
		fromLeft: [...valued]
			.sort((a, b) => a.point.x - b.point.x)
			.map((v) => v.name),
	};
}

/** The line and its band. */
function lineLayers(line: CalibrationLine, confidence: number): Layer[] {
	const { low, high } = line;
	const grid = Array.from(
		{ length: places + 1 },
		(_, i) => low + ((high - low) * i) / places,
	);
	const band = predictionBand(line, grid, 1, confidence);
	const name = `line and ${confidenceText(confidence)} of single readings`;
	return [
		{
			is: "band",
			name,
			ink: "blue",
			points: band.map((b) => ({
				x: b.concentration,
				low: b.low,
				high: b.high,
			})),
		},
		{
			is: "line",
			name,
			ink: "blue",
			dash: "solid",
			points: band.map((b) => ({ x: b.concentration, y: b.signal })),
		},
	];
}

function standardsLayer(line: CalibrationLine): Layer {
	return {
		is: "points",
		name: "standard",
		ink: "text",
		shape: "circle",
		points: line.points.map((p) => ({
			x: p.concentration,
			y: p.signal,
			hover: `standard ${p.standard}\n${p.concentration} ${line.concentrationUnit}\nreading ${roundedTo(p.signal, line.residualDeviation)}, ${roundedTo(p.residual, line.residualDeviation)} off the line`,
		})),
	};
}

/** Room for the arrows to the right, and a sign of what they say. */
function beyondLayers(
	{ low, high }: CalibrationLine,
	arrows: readonly Arrow[],
): Layer[] {
	return arrows.some((r) => r.towards === "right")
		? [
				{
					is: "zone",
					name: "beyond the standards",
					axis: "x",
					from: high,
					to: high + 0.2 * (high - low),
					label: "",
					ink: "quiet",
				},
			]
		: [];
}

function layersOf(
	line: CalibrationLine,
	{ points, arrows }: Marks,
	confidence: number,
): Layer[] {
	return [
		...beyondLayers(line, arrows),
		...lineLayers(line, confidence),
		standardsLayer(line),
		...(points.length > 0
			? [
					{
						is: "points" as const,
						name: "flask",
						ink: "rust" as const,
						shape: "triangle" as const,
						points,
					},
				]
			: []),
		...onlyLimits("rust", arrows),
	];
}

function formulaOf(line: CalibrationLine): string {
	const [a, b, k] = line.coefficients.map((v, i) =>
		roundedTo(v, Math.sqrt(line.covariance[i][i])),
	);
	switch (line.model) {
		case "through zero":
			return `S = ${b} c`;
		case "straight":
			return `S = ${a} + ${b} c`;
		default:
			return `S = ${a} + ${b} c + ${k} c²`;
	}
}

function altText(
	line: CalibrationLine,
	read: readonly OnLine[],
	{ points }: Marks,
	accuracy: number,
): string {
	const unit = line.concentrationUnit;
	const beyond = read
		.filter((r) => r.on.concentration.is !== "value")
		.map(
			(r) =>
				`flask ${r.residue.flask.name} (${r.on.concentration.is} ${roundedTo(r.on.concentration.quantity.in(unit as never), accuracy)} ${unit})`,
		);
	const places = points.map((p) => p.x);
	const range =
		points.length === 0
			? ""
			: `, from ${roundedTo(Math.min(...places), accuracy)} to ${roundedTo(Math.max(...places), accuracy)} ${unit}`;
	return `Calibration line ${formulaOf(line)} (S ${line.signalKind}, c in ${unit}) through ${countOf(line.points.length, "reading")} of standards from ${line.low} to ${line.high} ${unit}; ${countOf(points.length, "flask")} read on it${range}.${
		beyond.length === 0 ? "" : ` Only a limit: ${listed(beyond)}.`
	}`;
}

/** From where on something is seen, and from where on it is a number. */
function limitNote(line: CalibrationLine, limits: DetectionLimits): string {
	const unit = line.concentrationUnit;
	const accuracy = limits.decision / 10;
	const quantification =
		limits.quantification.is === "value"
			? `, as a number from ${roundedTo(limits.quantification.value, accuracy)} ${unit}`
			: "";
	return `Seen from ${roundedTo(limits.detection, accuracy)} ${unit} on (${limits.definition})${quantification}.`;
}

export interface CalibrationLineOptions {
	/** Of the band and of the bars; 0.95 if not given. */
	readonly confidence?: number;
}

/** The flasks of a trial that were read on one of its lines. */
function readOn(line: CalibrationLine, trial: Trial | undefined): OnLine[] {
	if (trial === undefined) return [];
	throwProblems(
		calibrationLines(trial).includes(line)
			? []
			: [
					problem(
						"line-of-another-trial",
						{ file: trial.file },
						`the calibration line ${quoted(line.name)} beside a trial that it is not from`,
						"a line of this trial",
						"Take one of residue.calibrationLines(trial), or leave the trial out.",
					),
				],
	);
	return readResidues(line, residues(trial));
}

/** The figure of any line with what was read on it. */
export function lineFigure(
	line: CalibrationLine,
	read: readonly OnLine[],
	confidence: number,
): Figure {
	const marks = marksOf(line, read, confidence);
	const limits = detectionLimits(line);
	const flaskNote = `Flasks: blank and turbidity taken off; bars: ${confidenceText(confidence)} interval. From left to right: ${marks.fromLeft.join(", ")}.`;
	return figure({
		title: `Calibration line ${quoted(line.name)}${read.length > 0 ? " and what was read on it" : ""}`,
		alt: altText(line, read, marks, limits.decision),
		x: {
			label: "Concentration in the cuvette",
			unit: line.concentrationUnit,
			scale: { is: "linear" },
		},
		y: {
			label: line.signalKind === "pH" ? "pH" : sentence(line.signalKind),
			unit: line.signalUnit === line.signalKind ? "" : line.signalUnit,
			scale: { is: "linear" },
		},
		layers: layersOf(line, marks, confidence),
		notes: [
			...(marks.points.length > 0 ? [flaskNote] : []),
			limitNote(line, limits),
		],
	});
}

/**
 * A calibration line with the band in which so many single readings fall as the confidence says, its standards, and the flasks of its trial that were read on it (bars: interval of ISO 8466-1). A reading outside the standards is an arrow
 * from the last of them: where on the axis it belongs is not known.
 *
 * @param trial that the line is from; without it no flasks are drawn
 * @throws ProblemError for a line that is not from the trial, and for options that it does not have
 * @example
 * const [line] = residue.calibrationLines(dyeTrial);
 * figures.calibrationLine(line, dyeTrial).x.unit // => "mg/L"
 */
export function calibrationLine(
	line: CalibrationLine,
	trial?: Trial,
	options: CalibrationLineOptions = {},
): Figure {
	requireResult(line, calibrationLineKind, "figures.calibrationLine");
	requireOptions(
		options,
		{ confidence: confidenceOption },
		"figures.calibrationLine",
	);
	const { confidence = usualConfidence } = options;
	return lineFigure(line, readOn(line, trial), confidence);
}
