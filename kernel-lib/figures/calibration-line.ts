import {
	type CalibrationLine,
	detectionLimits,
	predictionBand,
	type ReadResidue,
	readBackwards,
} from "../residue";
import type { Arrow, Figure, Layer, Point } from "./description";
import { figure } from "./figure";
import { countOf, listed, roundedTo, sentence } from "./words";

const places = 60;

/** A flask that was read on a line. */
interface OnLine {
	readonly residue: ReadResidue;
	readonly on: Extract<ReadResidue["reading"], { is: "on a line" }>["on"];
}

function readOn(
	line: CalibrationLine,
	residues: readonly ReadResidue[],
): OnLine[] {
	return residues.flatMap((residue) =>
		residue.reading.is === "on a line" &&
		residue.reading.on.line.name === line.name
			? [{ residue, on: residue.reading.on }]
			: [],
	);
}

function signalOf({ on }: OnLine, line: CalibrationLine): number {
	return on.signal.in(line.signalUnit as never);
}

/** A flask's residue as it stands on the figure: on the line at its reading, or an arrow from the limit that it is known to lie beyond. */
function marksOf(
	line: CalibrationLine,
	read: readonly OnLine[],
): { points: Point[]; arrows: Arrow[]; fromLeft: string[] } {
	const points: Point[] = [];
	const named: { x: number; name: string }[] = [];
	const arrows: Arrow[] = [];
	for (const r of read) {
		const y = signalOf(r, line);
		const { concentration } = r.on;
		const { flask } = r.residue;
		const what = `flask ${flask.name}${flask.treatment === "" ? "" : `, ${flask.treatment}`}`;
		if (concentration.is === "value") {
			const { concentration: x, interval } = readBackwards(
				line,
				y,
				r.on.readings,
			);
			named.push({ x, name: flask.name });
			points.push({
				x,
				y,
				xInterval: { low: interval.low, high: interval.high },
				hover: `${what}\nin the cuvette ${concentration.quantity}\nreading ${roundedTo(y, r.on.signal.standardUncertainty)}`,
			});
		} else
			arrows.push({
				x: concentration.is === "at least" ? line.high : line.low,
				y,
				towards: concentration.is === "at least" ? "right" : "left",
				label: flask.name,
				hover: `${what}\nin the cuvette ${concentration.is} ${concentration.quantity}\n${concentration.because}`,
			});
	}
	const fromLeft = named.sort((a, b) => a.x - b.x).map((r) => r.name);
	return { points, arrows, fromLeft };
}

/**
 * A calibration line with the band in which 95 % of single readings fall, its standards, and the flasks that were read on it (bars: 95 % interval of ISO 8466-1). A reading outside the standards is an arrow
 * from the last of them: where on the axis it belongs is not known.
 *
 * @param residues of any flasks; those read on other lines are left out
 */
export function calibrationLine(
	line: CalibrationLine,
	residues: readonly ReadResidue[] = [],
): Figure {
	const read = readOn(line, residues);
	const { points, arrows, fromLeft } = marksOf(line, read);
	const grid = Array.from(
		{ length: places + 1 },
		(_, i) => line.low + ((line.high - line.low) * i) / places,
	);
	const band = predictionBand(line, grid);
	const limits = detectionLimits(line);
	const name = "line and 95 % of single readings";
	const unit = line.concentrationUnit;
	const beyond = read.filter((r) => r.on.concentration.is !== "value");
	const layers: Layer[] = [
		// Room for the arrows, and a sign of what they say.
		...(arrows.some((r) => r.towards === "right")
			? [
					{
						is: "zone" as const,
						name: "beyond the standards",
						axis: "x" as const,
						from: line.high,
						to: line.high + 0.2 * (line.high - line.low),
						label: "",
						ink: "quiet" as const,
					},
				]
			: []),
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
		{
			is: "points",
			name: "standard",
			ink: "text",
			shape: "circle",
			points: line.points.map((p) => ({
				x: p.concentration,
				y: p.signal,
				hover: `standard ${p.standard}\n${p.concentration} ${unit}\nreading ${roundedTo(p.signal, line.residualDeviation)}, ${roundedTo(p.residual, line.residualDeviation)} off the line`,
			})),
		},
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
		...(arrows.length > 0
			? [
					{
						is: "arrows" as const,
						name: "only a limit",
						ink: "rust" as const,
						arrows,
					},
				]
			: []),
	];
	const [a, b, k] = line.coefficients.map((v, i) =>
		roundedTo(v, Math.sqrt(line.covariance[i][i])),
	);
	const shape =
		line.model === "through zero"
			? `S = ${b} c`
			: line.model === "straight"
				? `S = ${a} + ${b} c`
				: `S = ${a} + ${b} c + ${k} c²`;
	const quantification =
		limits.quantification.is === "value"
			? `, as a number from ${roundedTo(limits.quantification.value, limits.decision / 10)} ${unit}`
			: "";
	return figure({
		title: `Calibration line "${line.name}"${read.length > 0 ? " and what was read on it" : ""}`,
		alt: `Calibration line ${shape} (S ${line.signalKind}, c in ${unit}) through ${countOf(line.points.length, "reading")} of standards from ${line.low} to ${line.high} ${unit}; ${countOf(points.length, "flask")} read on it${
			points.length === 0
				? ""
				: `, from ${roundedTo(Math.min(...points.map((p) => p.x)), limits.decision)} to ${roundedTo(Math.max(...points.map((p) => p.x)), limits.decision)} ${unit}`
		}.${
			beyond.length === 0
				? ""
				: ` Only a limit: ${listed(beyond.map((r) => `flask ${r.residue.flask.name} (${r.on.concentration.is} ${roundedTo(r.on.concentration.quantity.in(unit as never), limits.decision)} ${unit})`))}.`
		}`,
		x: {
			label: "Concentration in the cuvette",
			unit,
			scale: { is: "linear" },
		},
		y: {
			label: line.signalKind === "pH" ? "pH" : sentence(line.signalKind),
			unit: line.signalUnit === line.signalKind ? "" : line.signalUnit,
			scale: { is: "linear" },
		},
		layers,
		notes: [
			...(points.length > 0
				? [
						`Flasks: blank and turbidity taken off; bars: 95 % interval. From left to right: ${fromLeft.join(", ")}.`,
					]
				: []),
			`Seen from ${roundedTo(limits.detection, limits.decision / 10)} ${unit} on (${limits.definition})${quantification}.`,
		],
	});
}
