import { type Washing, type Washout, washCurve } from "../activation";
import { confidenceText } from "../isotherms";
import { quoted } from "../quantity";
import type { Axis, Figure, Layer } from "./description";
import { errorBarShare } from "./error-bar";
import { figure } from "./figure";
import { countOf, roundedTo, sentence } from "./words";

/** Rinses beyond this many are not drawn. */
const mostDrawn = 40;

const plain = (value: number): string =>
	roundedTo(Number(value.toPrecision(3)), 0);

/** How far the curve is drawn: a rinse beyond the one that reaches the target. */
function lastDrawn({ washout, needed }: Washing): number {
	const done = washout.volumes.length;
	return needed.is === "foretold"
		? Math.min(Math.max(done, needed.total + 1), Math.max(done, mostDrawn))
		: done;
}

function curveLayers(
	washed: Extract<Washout, { is: "fitted" }>,
	last: number,
): Layer[] {
	const done = washed.volumes.length;
	const curve = washCurve(
		washed,
		Array.from({ length: last }, (_, i) => i + 1),
	);
	const line = (from: number, to: number): { x: number; y: number }[] =>
		curve
			.filter((p) => p.rinse >= from && p.rinse <= to)
			.map((p) => ({ x: p.rinse, y: p.value }));
	return [
		{
			is: "band",
			name: `${confidenceText(washed.confidence)} band of the curve`,
			ink: "blue",
			points: curve.map((p) => ({ x: p.rinse, low: p.low, high: p.high })),
		},
		{
			is: "line",
			name: "well-mixed rinses, fitted",
			ink: "blue",
			dash: "solid",
			points: line(1, done),
		},
		...(last > done
			? [
					{
						is: "line" as const,
						name: "predicted",
						ink: "blue" as const,
						dash: "dashed" as const,
						points: line(done, last),
					},
				]
			: []),
	];
}

/** What was read, and what it is read in. */
interface Scale {
	readonly quantity: string;
	readonly unit: string;
	readonly axis: Axis;
	/** Lowest end of the bar of a reading; a logarithmic axis has no zero to reach down to. */
	readonly low: (value: number, uncertainty: number) => number;
}

const scales: Readonly<Record<Washout["reading"], Scale>> = {
	conductivity: {
		quantity: "conductivity",
		unit: " µS/cm",
		axis: {
			label: "Conductivity of the rinse",
			unit: "µS/cm",
			scale: { is: "log" },
		},
		low: (value, uncertainty) => Math.max(value - 2 * uncertainty, value / 2),
	},
	pH: {
		quantity: "pH",
		unit: "",
		axis: { label: "pH of the rinse", unit: "", scale: { is: "linear" } },
		low: (value, uncertainty) => value - 2 * uncertainty,
	},
};

function readingLayer(washed: Washout): Layer {
	const { quantity, unit, low } = scales[washed.reading];
	return {
		is: "points",
		name: `${quantity} read`,
		ink: "rust",
		shape: "circle",
		points: washed.points.map((p) => ({
			x: p.rinse,
			y: p.value,
			yInterval: {
				low: low(p.value, p.uncertainty),
				high: p.value + 2 * p.uncertainty,
			},
			hover: `rinse ${p.rinse}\n${quantity} ${plain(p.value)}${unit}\n${plain(p.poured)} mL poured on so far`,
		})),
	};
}

function floorLayers(washed: Washout): Layer[] {
	return washed.is === "fitted" && washed.floor > 0
		? [
				{
					is: "reference line",
					name: `the water itself (${washed.floorIs})`,
					axis: "y",
					at: washed.floor,
					label: "",
					ink: "quiet",
					dash: "dotted",
				},
			]
		: [];
}

/** The target as a line across. One that is not above 0 has no place on a logarithmic axis; its sentence says why there is none. */
function targetLayers({ washout, needed }: Washing): Layer[] {
	if (!("target" in needed)) return [];
	const { target } = needed;
	const at = Number(target.replace(/^pH /, "").replace(/ .*$/, ""));
	const logarithmic = scales[washout.reading].axis.scale.is === "log";
	return logarithmic && !(at > 0)
		? []
		: [
				{
					is: "reference line",
					name: `target: ${target}`,
					axis: "y",
					at,
					label: "",
					ink: "text",
					dash: "dash-dotted",
				},
			];
}

function altText({ washout: washed, needed }: Washing): string {
	const { quantity, unit } = scales[washed.reading];
	const { name } = washed.firing;
	const read = washed.points
		.map((p) => `rinse ${p.rinse}: ${plain(p.value)}${unit}`)
		.join("; ");
	const outcome =
		washed.is === "fitted"
			? `The model of well-mixed rinses keeps ${plain(washed.retained)} mL of liquor in the char. ${"sentence" in needed ? needed.sentence : ""}`
			: `No curve: ${washed.because}.`;
	return `${quantity === "pH" ? quantity : sentence(quantity)} of ${countOf(washed.points.length, "rinse")} of ${quoted(name)}. ${read}. ${outcome}`.trim();
}

/**
 * Readings of the rinses (bars: 95 %), the washout model with its band as far as it predicts, the water's own reading and the targets. The scale is logarithmic for conductivity, so that a steady washing is a straight
 * line until it nears the water's own.
 *
 * @param washing one of activation.washouts; where no model could be fitted the figure shows the readings and says why there is no curve
 */
export function washingCurve(washing: Washing): Figure {
	const washed = washing.washout;
	return figure({
		title: `Washing of ${quoted(washed.firing.name)}`,
		alt: altText(washing),
		x: { label: "Rinse", unit: "", scale: { is: "linear", whole: true } },
		y: scales[washed.reading].axis,
		layers: [
			...(washed.is === "fitted"
				? curveLayers(washed, lastDrawn(washing))
				: []),
			readingLayer(washed),
			...floorLayers(washed),
			...targetLayers(washing),
		],
		notes: [
			washed.is === "fitted"
				? `Bars: reading error, ${errorBarShare}. Band: ${confidenceText(washed.confidence)} of the curve; pores lag behind it.`
				: `No curve: ${washed.because}.`,
		],
	});
}
