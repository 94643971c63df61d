import type { FigureDescription, Interval, Layer } from "../description";
import { keyLayers } from "../key-layers";
import { fillOpacity, stroke, type Theme, typeSize } from "../look";
import {
	hatching,
	type Json,
	key,
	plotlyDashes,
	plotlyText,
	symbolOf,
	transparent,
} from "./parts";

function errorBars(
	values: readonly number[],
	intervals: readonly (Interval | undefined)[],
	colour: string,
	thickness: number,
): Json {
	return {
		type: "data",
		symmetric: false,
		array: values.map((v, i) => Math.max(0, (intervals[i]?.high ?? v) - v)),
		arrayminus: values.map((v, i) => Math.max(0, v - (intervals[i]?.low ?? v))),
		color: colour,
		thickness,
		width: 4,
	};
}

function hovers(texts: readonly string[]): Json {
	return { hovertext: texts.map(plotlyText), hoverinfo: "text" };
}

function labelledMarks(marks: readonly { readonly label?: string }[]): boolean {
	return marks.some((m) => (m.label ?? "") !== "");
}

/** Short texts beside marks; nothing where no mark has one. */
function labels(
	marks: readonly { readonly label?: string }[],
	position: string,
	theme: Theme,
): Json {
	return labelledMarks(marks)
		? {
				text: marks.map((m) => plotlyText(m.label ?? "")),
				textposition: position,
				textfont: { size: typeSize.label, color: theme.text },
				cliponaxis: false,
			}
		: {};
}

function pointTrace(
	layer: Extract<Layer, { is: "points" }>,
	theme: Theme,
): Json {
	const colour = theme[layer.ink];
	const large = layer.size === "large";
	const thickness = large ? stroke.strong : stroke.thin;
	const bars = (axis: "x" | "y"): Json => {
		const intervals = layer.points.map((p) => p[`${axis}Interval`]);
		return intervals.some((i) => i)
			? {
					[`error_${axis}`]: errorBars(
						layer.points.map((p) => p[axis]),
						intervals,
						colour,
						thickness,
					),
				}
			: {};
	};
	return {
		type: "scatter",
		mode: labelledMarks(layer.points) ? "markers+text" : "markers",
		...key(layer.name),
		x: layer.points.map((p) => p.x),
		y: layer.points.map((p) => p.y),
		...bars("x"),
		...bars("y"),
		...hovers(layer.points.map((p) => p.hover)),
		// Off the error bars, and under a curve that rises.
		...labels(layer.points, "bottom right", theme),
		marker: {
			color: colour,
			size: large ? 13 : 8.5,
			symbol: layer.points.map((p) => symbolOf(layer.shape, p.hollow ?? false)),
			line: {
				color: colour,
				width: layer.shape === "stroke" ? stroke.strong : 1.4,
			},
		},
	};
}

/** The mark at the limit of each arrow; the arrow itself is an annotation. */
function arrowFeet(
	layer: Extract<Layer, { is: "arrows" }>,
	theme: Theme,
): Json {
	return {
		type: "scatter",
		mode: "markers",
		...key(layer.name),
		showlegend: false,
		x: layer.arrows.map((a) => a.x),
		y: layer.arrows.map((a) => a.y),
		...hovers(layer.arrows.map((a) => a.hover)),
		marker: {
			color: theme[layer.ink],
			size: 8.5,
			symbol: layer.arrows.map((a) =>
				a.shape
					? symbolOf(a.shape, a.hollow ?? false)
					: a.towards === "up" || a.towards === "down"
						? "line-ew"
						: "line-ns",
			),
			line: { color: theme[layer.ink], width: stroke.strong },
		},
	};
}

function barTrace(layer: Extract<Layer, { is: "bars" }>, theme: Theme): Json {
	const at = layer.bars.map((b) => b.at);
	const length = layer.bars.map((b) => b.to - b.from);
	return {
		type: "bar",
		...key(layer.name),
		orientation: layer.along === "x" ? "h" : "v",
		...(layer.along === "x" ? { x: length, y: at } : { x: at, y: length }),
		base: layer.bars.map((b) => b.from),
		width: layer.width,
		...hovers(layer.bars.map((b) => b.hover)),
		...labels(layer.bars, "outside", theme),
		marker: {
			color: theme[layer.ink],
			line: { color: theme.paper, width: 0.8 },
			...(layer.hatch === "plain"
				? {}
				: { pattern: hatching(layer.hatch, theme) }),
		},
	};
}

function lineTrace(layer: Extract<Layer, { is: "line" }>, theme: Theme): Json {
	return {
		type: "scatter",
		mode: "lines",
		...key(layer.name),
		x: layer.points.map((p) => p.x),
		y: layer.points.map((p) => p.y),
		hoverinfo: "skip",
		line: {
			color: theme[layer.ink],
			width: stroke.line,
			dash: plotlyDashes[layer.dash],
			shape: layer.smooth ? "spline" : "linear",
		},
	};
}

function bandTrace(layer: Extract<Layer, { is: "band" }>, theme: Theme): Json {
	const back = [...layer.points].reverse();
	return outline(
		layer.name,
		[...layer.points, ...back].map((p) => p.x),
		[...layer.points.map((p) => p.high), ...back.map((p) => p.low)],
		transparent(theme[layer.ink], fillOpacity.band),
		"rgba(0,0,0,0)",
	);
}

/** The traces of a layer; reference lines, zones and texts are no traces. */
export function traces(layer: Layer, theme: Theme): Json[] {
	switch (layer.is) {
		case "points":
			return [pointTrace(layer, theme)];
		case "arrows":
			return [
				arrowFeet(layer, theme),
				...(layer.name === "" ? [] : [arrowKey(layer, theme)]),
			];
		case "bars":
			return [barTrace(layer, theme)];
		case "line":
			return [lineTrace(layer, theme)];
		case "band":
			return [bandTrace(layer, theme)];
		case "region":
			return [
				outline(
					layer.name,
					layer.points.map((p) => p.x),
					layer.points.map((p) => p.y),
					transparent(theme[layer.ink], fillOpacity.region),
					theme[layer.ink],
				),
			];
		default:
			return [];
	}
}

/** Arrows are annotations, which have no place in the key: a trace without points stands for them there. */
function arrowKey(layer: Extract<Layer, { is: "arrows" }>, theme: Theme): Json {
	return {
		type: "scatter",
		mode: "markers",
		...key(layer.name),
		x: [null],
		y: [null],
		hoverinfo: "skip",
		marker: {
			color: theme[layer.ink],
			size: 12,
			symbol: `arrow-${layer.arrows[0]?.towards ?? "up"}`,
		},
	};
}

/**
 * A curve that shares its name with points, or with a band, has one entry in the key that shows line and symbol together: Plotly's own entries show one trace each.
 */
export function sharedKeys(figure: FigureDescription, theme: Theme): Json[] {
	return [...keyLayers(figure)].flatMap(([name, layers]): Json[] => {
		const curve = layers.find((l) => l.is === "line");
		const marks = layers.find((l) => l.is === "points");
		if (curve?.is !== "line" || layers.length === 1) return [];
		return [
			{
				type: "scatter",
				mode: marks ? "lines+markers" : "lines",
				...key(name),
				x: [null],
				y: [null],
				hoverinfo: "skip",
				line: {
					color: theme[curve.ink],
					width: stroke.line,
					dash: plotlyDashes[curve.dash],
				},
				...(marks?.is === "points"
					? {
							marker: {
								color: theme[marks.ink],
								size: 8.5,
								symbol: symbolOf(marks.shape, false),
							},
						}
					: {}),
			},
		];
	});
}

function outline(
	name: string,
	x: readonly number[],
	y: readonly number[],
	fill: string,
	edge: string,
): Json {
	return {
		type: "scatter",
		mode: "lines",
		...key(name),
		x,
		y,
		fill: "toself",
		fillcolor: fill,
		line: { color: edge, width: stroke.thin },
		hoverinfo: "skip",
	};
}
