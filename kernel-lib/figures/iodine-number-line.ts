import { confidenceText } from "../isotherms";
import {
	fixed,
	listed,
	quoted,
	refuse,
	requireResult,
	requireResults,
} from "../quantity";
import {
	type DosagePoint,
	d4607,
	type IodineNumber,
	iodineNumberKind,
	type LogLine,
	logLine,
} from "../uptake";
import type { Axis, Figure, Layer, Point } from "./description";
import { errorBarOf, errorBarShare } from "./error-bar";
import { figure } from "./figure";
import { type SeriesLook, seriesLook } from "./look";
import { countOf, roundedInterval, roundedTo, sentence } from "./words";

/** Places along the line where its interval is worked out; between them the band is joined by straight strokes. */
const bandPlaces = 24;

type NumberOnLine = Extract<IodineNumber, { is: "value" }>;

/** The interval of the line at one normality after the other, from the smallest to the largest that is drawn. */
function lineAlong(
	result: NumberOnLine,
): { x: number; y: number; low: number; high: number }[] {
	const from = Math.min(result.line.range[0], d4607.reportedAt_N);
	const to = Math.max(result.line.range[1], d4607.reportedAt_N);
	return Array.from({ length: bandPlaces + 1 }, (_, i) => {
		const x = from * (to / from) ** (i / bandPlaces);
		const at = logLine(result.points, x);
		return { x, y: at.value.in("mg/g"), low: at.low, high: at.high };
	});
}

const window: readonly Layer[] = [
	{
		is: "zone",
		name: "",
		axis: "x",
		from: d4607.windowLow_N,
		to: d4607.windowHigh_N,
		label: `window ${d4607.windowLow_N} to ${d4607.windowHigh_N} N`,
		ink: "quiet",
	},
	{
		is: "reference line",
		name: "",
		axis: "x",
		at: d4607.reportedAt_N,
		label: `read at ${d4607.reportedAt_N} N`,
		ink: "text",
		dash: "dashed",
	},
];

const residualNormality: Axis = {
	label: "Residual normality of iodine",
	unit: "N",
	scale: { is: "log" },
};

const uptakeRead = `Iodine uptake at ${d4607.reportedAt_N} N`;

function notAvailable(
	result: Extract<IodineNumber, { is: "not available" }>,
): Figure {
	const { treatment, because } = result;
	const title = `${uptakeRead}, ${quoted(treatment)}`;
	return figure({
		x: residualNormality,
		// Without a value there is nothing to measure upwards.
		y: {
			label: "",
			unit: "",
			scale: { is: "categories", names: [treatment] },
		},
		title,
		alt: `${title}: not available, because ${because}.`,
		layers: [
			...window,
			{
				is: "labels",
				labels: [{ x: d4607.reportedAt_N, y: 0, text: "not available" }],
			},
		],
		notes: [`Not available: ${because}.`, ...result.remarks],
	});
}

function dosageText(p: DosagePoint): string {
	return `flask ${p.flask.name}, ${roundedTo(p.char.in("g"), 0)} g of char, ${roundedTo(p.uptake.in("mg/g"), 0)} mg/g at ${roundedTo(p.normality.in("N"), 0)} N`;
}

function altText(
	{ line, points }: NumberOnLine,
	title: string,
	read: string,
): string {
	const outside = points.filter((p) => {
		const c = p.normality.in("N");
		return c < d4607.windowLow_N || c > d4607.windowHigh_N;
	});
	return `${title}: ${read}. ${sentence(countOf(points.length, "dosage"))} on logarithmic axes: ${points.map(dosageText).join("; ")}. Slope ${fixed(line.slope, 3)}, correlation ${fixed(line.correlation, 4)}.${
		outside.length === 0
			? ""
			: ` Outside the window: ${listed(outside.map((p) => `flask ${p.flask.name}`))}.`
	}`;
}

function dosageLayer(
	points: readonly DosagePoint[],
	name: string,
	{ ink, shape }: Pick<SeriesLook, "ink" | "shape">,
): Layer {
	return {
		is: "points",
		name,
		ink,
		shape,
		points: points.map((p) => ({
			x: p.normality.in("N"),
			y: p.uptake.in("mg/g"),
			xInterval: errorBarOf(p.normality.to("N")),
			yInterval: errorBarOf(p.uptake.to("mg/g")),
			hover: `flask ${p.flask.name}\n${p.char} of char\n${p.uptake} per gram\nresidue ${p.normality}`,
			label: `${roundedTo(p.char.in("g"), 0)} g`,
		})),
	};
}

function lineLayers(
	result: NumberOnLine,
	name: string,
	{ ink, dash }: Pick<SeriesLook, "ink" | "dash">,
): Layer[] {
	const along = lineAlong(result);
	return [
		{
			is: "band",
			name,
			ink,
			points: along.map(({ x, low, high }) => ({ x, low, high })),
		},
		{
			is: "line",
			name,
			ink,
			dash,
			points: along.map(({ x, y }) => ({ x, y })),
		},
	];
}

/** The value read off the line, as a point with its interval. */
function valuePoint({ name, line }: NumberOnLine): Point {
	return {
		x: d4607.reportedAt_N,
		y: line.value.in("mg/g"),
		yInterval: { low: line.low, high: line.high },
		hover: `${name}\n${readOff(line)}`,
		// As the iodine number itself is given, in whole mg/g.
		label: `${fixed(line.value.in("mg/g"), 0)} mg/g`,
	};
}

/** "368 mg/g (95 % interval 361 to 374)". */
function readOff({ value, low, high, confidence }: LogLine): string {
	const r = roundedInterval(value.in("mg/g"), low, high);
	return `${r.value} mg/g (${confidenceText(confidence)} interval ${r.low} to ${r.high})`;
}

const uptakePerGram: Axis = {
	label: "Iodine taken up per gram of char",
	unit: "mg/g",
	scale: { is: "log" },
};

const bandNote =
	"The error bars hold the errors that all dosages share as well; the band holds the scatter about the line and the shared errors.";

function lineOf(result: NumberOnLine): Figure {
	const { line, points } = result;
	const confidence = confidenceText(line.confidence);
	const title = `${sentence(result.name)}, ${quoted(result.treatment)}`;
	return figure({
		x: residualNormality,
		y: uptakePerGram,
		title,
		alt: altText(result, title, readOff(line)),
		layers: [
			...window,
			...lineLayers(result, `log-log line, ${confidence} band`, {
				ink: "blue",
				dash: "solid",
			}),
			dosageLayer(points, `dosage, ${errorBarShare}`, {
				ink: "text",
				shape: "circle",
			}),
			{
				is: "points",
				name: `value at ${d4607.reportedAt_N} N, ${confidence} interval`,
				ink: "rust",
				shape: "diamond",
				size: "large",
				points: [valuePoint(result)],
			},
		],
		notes: [bandNote],
	});
}

/** Several chars on one pair of axes, each with the look of a series. */
function linesOf(
	found: readonly NumberOnLine[],
	without: readonly IodineNumber[],
): Figure {
	const title = `${uptakeRead} of ${countOf(found.length, "char")}`;
	return figure({
		x: residualNormality,
		y: uptakePerGram,
		title,
		alt: `${title}. ${found.map((n) => altText(n, quoted(n.treatment), readOff(n.line))).join(" ")}`,
		layers: [
			...window,
			...found.flatMap((n, i): Layer[] => {
				const look = seriesLook(i);
				return [
					...lineLayers(n, n.treatment, look),
					dosageLayer(n.points, n.treatment, look),
					{
						is: "points",
						name: "",
						ink: look.ink,
						shape: "diamond",
						size: "large",
						points: [valuePoint(n)],
					},
				];
			}),
		],
		notes: [
			...without.flatMap((n) =>
				n.is === "not available"
					? [`${quoted(n.treatment)} is not available: ${n.because}.`]
					: [],
			),
			bandNote,
		],
	});
}

const isOnLine = (n: IodineNumber): n is NumberOnLine => n.is === "value";

function numbersGiven(
	given: IodineNumber | readonly IodineNumber[],
): readonly IodineNumber[] {
	if (!Array.isArray(given)) {
		requireResult(given, iodineNumberKind, iodineNumberLine.name);
		return [given as IodineNumber];
	}
	requireResults(given, iodineNumberKind, iodineNumberLine.name);
	return given.length > 0
		? given
		: refuse(
				"nothing-to-draw",
				iodineNumberLine.name,
				"an empty list",
				iodineNumberKind.expected,
				"Draw it where the sheet holds a char that was dosed.",
			);
}

/**
 * Uptake of each dosage against residual normality on logarithmic axes, the line through them with its band (scatter and shared errors together), the window of ASTM D4607 shaded, and the
 * value read at 0.02 N with its interval. Several chars stand on one pair of axes. A char without a result is named with the reason.
 * @throws ProblemError for an empty list
 * @example
 * const numbers = uptake.iodineNumbers(iodineNumberTrial);
 * figures.iodineNumberLine(numbers[0]).title // => "Iodine number (ASTM D4607), \"fired twice\""
 * figures.iodineNumberLine(numbers).title // => "Iodine number (ASTM D4607), \"fired twice\""
 */
export function iodineNumberLine(
	given: IodineNumber | readonly IodineNumber[],
): Figure {
	const numbers = numbersGiven(given);
	const found = numbers.filter(isOnLine);
	const without = numbers.filter((n) => n.is === "not available");
	const [only] = found.length === 0 ? without : found;
	if (only.is === "not available") return notAvailable(only);
	return numbers.length === 1 ? lineOf(only) : linesOf(found, without);
}
