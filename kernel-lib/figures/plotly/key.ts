import type { FigureDescription, Layer } from "../description";
import { keyLayers } from "../key-layers";
import {
	fillOpacity,
	type Ink,
	spacing,
	stroke,
	type Theme,
	typeSize,
} from "../look";
import type { Frame } from "../picture/frame";
import { commonInk } from "../picture/key-glyph";
import { textWidth } from "../text";
import {
	hatching,
	type Json,
	keyName,
	markerOf,
	plotlyDash,
	transparent,
} from "./parts";
import { paperPlace } from "./place";

/** Room that Plotly leaves for the sign of a name, around it, between entries and below the key; height of a line. All px. */
const signWidth = 30;
const signGap = 10;
const entryGap = 5;
const keyPadding = 5;
const lineHeight = 19;

function bars(layer: Extract<Layer, { is: "bars" }>, theme: Theme): Json {
	return {
		type: "bar",
		marker: {
			color: theme[layer.ink],
			...(layer.hatch === "plain"
				? {}
				: { pattern: hatching(layer.hatch, theme) }),
		},
	};
}

/** Line, symbol and filling of a name, whichever of them it has. */
function sign(layers: readonly Layer[], theme: Theme): Json {
	const first = <K extends Layer["is"]>(...kinds: K[]) =>
		layers.find((l): l is Extract<Layer, { is: K }> =>
			(kinds as string[]).includes(l.is),
		);
	const inkOf = (layer: Layer): Ink => commonInk(layers, layer);
	const bar = first("bars");
	if (bar) return bars(bar, theme);
	const line = first("line", "reference line");
	const area = first("band", "region", "zone");
	const points = first("points");
	const arrow = first("arrows");
	const edge = line ?? area;
	const modes = [edge ? "lines" : "", points || arrow ? "markers" : ""];
	return {
		type: "scatter",
		mode: modes.filter((m) => m !== "").join("+"),
		...(edge
			? {
					line: {
						color: theme[inkOf(edge)],
						width: line ? stroke.line : 0.6,
						dash: line ? plotlyDash(line.dash) : "solid",
					},
				}
			: {}),
		...(area
			? {
					fill: "toself",
					fillcolor: transparent(theme[inkOf(area)], fillOpacity.band),
				}
			: {}),
		...(points
			? {
					marker: markerOf(
						{ ...points, ink: inkOf(points) },
						[
							points.points.length > 0 &&
								points.points.every((p) => p.hollow ?? false),
						],
						theme,
					),
				}
			: arrow
				? {
						marker: {
							color: theme[inkOf(arrow)],
							size: 10,
							symbol: `triangle-${arrow.arrows[0]?.towards ?? "up"}`,
						},
					}
				: {}),
	};
}

/** A trace without points for every name: Plotly's own entries show one trace each, ours all that has the name. */
export function keyTraces(figure: FigureDescription, theme: Theme): Json[] {
	return [...keyLayers(figure)].map(([name, layers]) => ({
		...sign(layers, theme),
		name: keyName(name),
		legendgroup: keyName(name),
		showlegend: true,
		x: [null],
		y: [null],
		hoverinfo: "skip",
	}));
}

/** Lines that Plotly needs for the key: one where all entries fit, else columns as wide as the widest entry. */
function keyLines(figure: FigureDescription, room: number): number {
	const widths = [...keyLayers(figure).keys()].map(
		(name) => signWidth + signGap + entryGap + textWidth(name, typeSize.legend),
	);
	if (widths.length === 0) return 0;
	const columns = Math.floor(room / Math.max(...widths));
	return widths.reduce((a, b) => a + b, 0) <= room
		? 1
		: Math.ceil(widths.length / Math.max(1, columns));
}

/** Px that the plot lies lower than in the static picture, whose key may take fewer lines. */
export function keyShift(figure: FigureDescription, frame: Frame): number {
	// Up to the right end of the plot, and no nearer: the width table is not exact for every face.
	const lines = keyLines(figure, frame.plot.right - spacing.edge);
	const own = new Set(frame.key.map((k) => k.y)).size;
	return Math.max(0, (lines - own) * lineHeight);
}

/** The key, between the title and what stands above the plot. */
export function plotlyKey(frame: Frame, colours: Theme): Json {
	if (frame.key.length === 0) return { showlegend: false };
	const bottom = Math.max(...frame.key.map((k) => k.y)) + lineHeight / 2;
	const corner = paperPlace(
		frame,
		spacing.edge,
		// Above the plot: a key beside it would have no more width than the plot.
		Math.min(bottom + keyPadding, frame.plot.top - 1),
	);
	return {
		showlegend: true,
		legend: {
			orientation: "h",
			traceorder: "normal",
			...corner,
			xref: "paper",
			yref: "paper",
			xanchor: "left",
			yanchor: "bottom",
			itemwidth: signWidth,
			// In px: never scrolled.
			maxheight: 2000,
			bgcolor: "rgba(0,0,0,0)",
			font: { size: typeSize.legend, color: colours.text },
		},
	};
}
