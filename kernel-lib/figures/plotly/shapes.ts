import type { Layer } from "../description";
import { fillOpacity, stroke, type Theme } from "../look";
import type { Frame } from "../picture/frame";
import { type Json, ofName, plotlyDash, transparent } from "./parts";
import { inRow, paperPlace } from "./place";

type Reference = Extract<Layer, { is: "reference line" }>;
type Zone = Extract<Layer, { is: "zone" }>;

/** So many times its length does a line without ends reach beyond an axis, so that it does not end where a reader pulls the figure along. */
const farther = 9;

/** From where to where a line without ends is drawn: Plotly lays a line over the grid only where both its ends are values. */
function farEnds(frame: Frame, which: "x" | "y"): readonly [number, number] {
	const { low, high } = frame[which].span;
	if (frame[which].axis.scale.is === "log") {
		const reach = (high / low) ** farther;
		return [low / reach, high * reach];
	}
	const reach = farther * (high - low);
	return [low - reach, high + reach];
}

function lineShapes(frame: Frame, layer: Reference, theme: Theme): Json[] {
	const other = layer.axis === "x" ? "y" : "x";
	const along = (axis: "x" | "y", value: number): number =>
		axis === "y" ? inRow(frame, value) : value;
	const at = along(layer.axis, layer.at);
	const shape = (ends: readonly [number, number], more: Json): Json => ({
		type: "line",
		...ofName(layer.name),
		[`${layer.axis}ref`]: layer.axis,
		[`${layer.axis}0`]: at,
		[`${layer.axis}1`]: at,
		[`${other}0`]: ends[0],
		[`${other}1`]: ends[1],
		line: {
			color: theme[layer.ink],
			width: stroke.line,
			dash: plotlyDash(layer.dash),
		},
		...more,
	});
	const ends = layer.over
		? ([along(other, layer.over.low), along(other, layer.over.high)] as const)
		: farEnds(frame, other);
	const up = frame.stripTops.get(layer) ?? 0;
	const label = paperPlace(frame, 0, frame.plot.top - up).y;
	return [
		shape(ends, { layer: "between", [`${other}ref`]: other }),
		...(up > 0
			? [shape([1, label], { layer: "above", [`${other}ref`]: "paper" })]
			: []),
	];
}

/** The shaded stretch, and its two edges. */
function zoneShapes(layer: Zone, theme: Theme): Json[] {
	const other = layer.axis === "x" ? "y" : "x";
	const shape = (type: string, from: number, to: number): Json => ({
		type,
		layer: "below",
		...ofName(layer.name),
		[`${layer.axis}ref`]: layer.axis,
		[`${other}ref`]: "paper",
		[`${layer.axis}0`]: from,
		[`${layer.axis}1`]: to,
		[`${other}0`]: 0,
		[`${other}1`]: 1,
	});
	const edge = (at: number): Json => ({
		...shape("line", at, at),
		line: { color: theme[layer.ink], width: stroke.thin, dash: "2px,3px" },
	});
	return [
		{
			...shape("rect", layer.from, layer.to),
			fillcolor: transparent(theme[layer.ink], fillOpacity.zone),
			line: { width: 0 },
		},
		edge(layer.from),
		edge(layer.to),
	];
}

/** Straight lines and shaded stretches. */
export function plotlyShapes(frame: Frame, layer: Layer, theme: Theme): Json[] {
	if (layer.is === "reference line") return lineShapes(frame, layer, theme);
	return layer.is === "zone" ? zoneShapes(layer, theme) : [];
}

/** The lines between rows that carry their names above their marks. */
export function rowLines(frame: Frame, theme: Theme): Json[] {
	return frame.rowTops.slice(1).map((top) => {
		const { y } = paperPlace(frame, 0, top);
		return {
			type: "line",
			layer: "below",
			xref: "paper",
			yref: "paper",
			x0: 0,
			x1: 1,
			y0: y,
			y1: y,
			line: { color: theme.grid, width: stroke.thin },
		};
	});
}
