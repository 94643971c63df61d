import type { Interval, Layer } from "../description";
import { fillOpacity, spacing, stroke, type Theme } from "../look";
import type { Frame } from "../picture/frame";
import {
	hatching,
	type Json,
	markerOf,
	ofName,
	plotlyDash,
	plotlyText,
	transparent,
} from "./parts";
import { heldOnAxis } from "./place";

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
		width: spacing.cap + thickness - 1,
	};
}

function hovers(texts: readonly string[]): Json {
	return { hovertext: texts.map(plotlyText), hoverinfo: "text" };
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
		mode: "markers",
		...ofName(layer.name),
		x: layer.points.map((p) => p.x),
		y: layer.points.map((p) => p.y),
		...bars("x"),
		...bars("y"),
		...hovers(layer.points.map((p) => p.hover)),
		marker: markerOf(
			layer,
			layer.points.map((p) => p.hollow ?? false),
			theme,
		),
	};
}

/** A symbol where the limit has one, else a stroke across the arrow. */
function feet(layer: Extract<Layer, { is: "arrows" }>, theme: Theme): Json {
	const marks = layer.arrows.map(({ shape, hollow = false, towards }) => {
		if (shape) return markerOf({ ...layer, shape }, [hollow], theme);
		const level = towards === "up" || towards === "down";
		return {
			symbol: level ? "line-ew" : "line-ns",
			size: 10,
			color: [theme[layer.ink]],
			line: { color: [theme[layer.ink]], width: [stroke.strong] },
		};
	});
	const lines = marks.map((m) => m.line as Record<string, readonly unknown[]>);
	return {
		symbol: marks.map((m) => m.symbol),
		size: marks.map((m) => m.size),
		color: marks.map((m) => (m.color as readonly unknown[])[0]),
		line: {
			color: lines.map((l) => l.color[0]),
			width: lines.map((l) => l.width[0]),
		},
	};
}

/** The mark at the limit of each arrow; the arrow itself is an annotation. */
function arrowFeet(
	frame: Frame,
	layer: Extract<Layer, { is: "arrows" }>,
	theme: Theme,
): Json {
	return {
		type: "scatter",
		mode: "markers",
		...ofName(layer.name),
		x: layer.arrows.map((a) => heldOnAxis(frame, "x", a.x)),
		y: layer.arrows.map((a) => heldOnAxis(frame, "y", a.y)),
		...hovers(layer.arrows.map((a) => a.hover)),
		marker: feet(layer, theme),
	};
}

/** Outlines are a trace of their own: Plotly takes no list of colours under a hatch. */
function barTraces(
	layer: Extract<Layer, { is: "bars" }>,
	theme: Theme,
): Json[] {
	return [false, true].map((hollow) =>
		barTrace(
			{
				...layer,
				bars: layer.bars.filter((b) => (b.hollow ?? false) === hollow),
			},
			hollow,
			theme,
		),
	);
}

function barTrace(
	layer: Extract<Layer, { is: "bars" }>,
	hollow: boolean,
	theme: Theme,
): Json {
	const at = layer.bars.map((b) => b.at);
	const length = layer.bars.map((b) => b.to - b.from);
	const ink = theme[layer.ink];
	return {
		type: "bar",
		...ofName(layer.name),
		orientation: layer.along === "x" ? "h" : "v",
		...(layer.along === "x" ? { x: length, y: at } : { x: at, y: length }),
		base: layer.bars.map((b) => b.from),
		width: layer.width,
		...hovers(layer.bars.map((b) => b.hover)),
		marker: hollow
			? {
					color: transparent(ink, fillOpacity.region),
					line: { color: ink, width: stroke.thin },
				}
			: {
					color: ink,
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
		...ofName(layer.name),
		x: layer.points.map((p) => p.x),
		y: layer.points.map((p) => p.y),
		hoverinfo: "skip",
		line: {
			color: theme[layer.ink],
			width: stroke.line,
			dash: plotlyDash(layer.dash),
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
export function traces(frame: Frame, layer: Layer, theme: Theme): Json[] {
	switch (layer.is) {
		case "points":
			return [pointTrace(layer, theme)];
		case "arrows":
			return [arrowFeet(frame, layer, theme)];
		case "bars":
			return barTraces(layer, theme);
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
		...ofName(name),
		x,
		y,
		fill: "toself",
		fillcolor: fill,
		line: { color: edge, width: stroke.thin },
		hoverinfo: "skip",
	};
}
