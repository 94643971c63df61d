import { confidenceText } from "../isotherms";
import { fixed, listed, quoted, requireResult } from "../quantity";
import {
	type DosagePoint,
	d4607,
	type IodineNumber,
	iodineNumberKind,
	logLine,
} from "../uptake";
import type { Axis, Figure, Layer } from "./description";
import { errorBarOf } from "./error-bar";
import { figure } from "./figure";
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

function notAvailable(
	result: Extract<IodineNumber, { is: "not available" }>,
): Figure {
	const { treatment, because } = result;
	const title = `Iodine uptake at ${d4607.reportedAt_N} N, ${quoted(treatment)}`;
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

function dosageLayer(points: readonly DosagePoint[]): Layer {
	return {
		is: "points",
		name: "dosage, k = 2",
		ink: "text",
		shape: "circle",
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

function lineLayers(result: NumberOnLine, name: string): Layer[] {
	const along = lineAlong(result);
	return [
		{
			is: "band",
			name,
			ink: "blue",
			points: along.map(({ x, low, high }) => ({ x, low, high })),
		},
		{
			is: "line",
			name,
			ink: "blue",
			dash: "solid",
			points: along.map(({ x, y }) => ({ x, y })),
		},
	];
}

/**
 * Uptake of each dosage against residual normality on logarithmic axes, the line through them with its band (scatter and shared errors together), the window of ASTM D4607 shaded, and the
 * value read at 0.02 N with its interval. A char without a result has a figure that says why.
 * @example
 * const [number] = uptake.iodineNumbers(iodineNumberTrial);
 * figures.iodineNumberLine(number).title // => "Iodine number (ASTM D4607), \"fired twice\""
 */
export function iodineNumberLine(result: IodineNumber): Figure {
	requireResult(result, iodineNumberKind, iodineNumberLine.name);
	if (result.is === "not available") return notAvailable(result);
	const { line, points } = result;
	const confidence = confidenceText(line.confidence);
	const value = line.value.in("mg/g");
	const r = roundedInterval(value, line.low, line.high);
	const read = `${r.value} mg/g (${confidence} interval ${r.low} to ${r.high})`;
	const title = `${sentence(result.name)}, ${quoted(result.treatment)}`;
	return figure({
		x: residualNormality,
		y: {
			label: "Iodine taken up per gram of char",
			unit: "mg/g",
			scale: { is: "log" },
		},
		title,
		alt: altText(result, title, read),
		layers: [
			...window,
			...lineLayers(result, `log-log line, ${confidence} band`),
			dosageLayer(points),
			{
				is: "points",
				name: `value at ${d4607.reportedAt_N} N, ${confidence} interval`,
				ink: "rust",
				shape: "diamond",
				size: "large",
				points: [
					{
						x: d4607.reportedAt_N,
						y: value,
						yInterval: { low: line.low, high: line.high },
						hover: `${result.name}\n${read}`,
					},
				],
			},
		],
		notes: [
			"The error bars hold the errors that all dosages share as well; the band holds the scatter about the line and the shared errors.",
		],
	});
}
