import type { FigureDescription } from "../description";
import {
	fontFamily,
	type Theme,
	type ThemeName,
	themes,
	typeSize,
} from "../look";
import { drawAll } from "../picture/draw-all";
import { type Frame, frameOf } from "../picture/frame";
import { paintOf } from "../picture/paint";
import { usualWidth } from "../picture/svg";
import { aboveThePlot, arrows, inside, outside } from "./annotations";
import { plotlyAxis } from "./axis";
import { keyShift, keyTraces, plotlyKey } from "./key";
import type { Json } from "./parts";
import { layerInRows } from "./place";
import { plotlyShapes, rowLines } from "./shapes";
import { traces } from "./traces";

/** What `Plotly.newPlot(element, data, layout, config)` takes. Plain JSON. */
export interface PlotlyFigure {
	readonly data: readonly Readonly<Record<string, unknown>>[];
	readonly layout: Readonly<Record<string, unknown>>;
	readonly config: Readonly<Record<string, unknown>>;
}

/** Texts of the frame, in their places; ticks and key are Plotly's own, and notes stand under the figure. */
function frameTexts(frame: Frame, shift: number, theme: Theme): Json[] {
	const ownTexts = new Set(["x tick", "y tick", "key", "note"]);
	return frame.texts
		.filter((t) => !ownTexts.has(t.role))
		.map((t) =>
			t.role === "reference"
				? aboveThePlot(frame, t, theme)
				: // The title stays on top when the key below it takes more lines.
					outside(
						frame,
						t.role === "title" ? { ...t, y: t.y - shift } : t,
						theme,
					),
		);
}

/** Where the figure ends, px: its notes stand under it. */
function endOf(frame: Frame): number {
	const note = frame.texts.find((t) => t.role === "note");
	return note === undefined ? frame.height : note.y - typeSize.note;
}

/**
 * The interactive form of a figure, for Plotly's basic build (scatter and bar traces, shapes, annotations). It is laid out as the static picture is, at one width, and a page makes it
 * smaller or larger as a whole. The numbers are those of the description; every text is made harmless, and mathematics and hover templates are not interpreted.
 */
export function plotlyFigure(
	figure: FigureDescription,
	theme: ThemeName = "light",
): PlotlyFigure {
	const colours = themes[theme];
	const frame = frameOf(figure, usualWidth);
	const { labels } = drawAll(figure, frame, paintOf(theme));
	const layers = figure.layers.map((l) => layerInRows(frame, l));
	const placed = { ...figure, layers };
	const shift = keyShift(figure, frame);
	const height = Math.ceil(endOf(frame) + shift);
	const { plot } = frame;
	const font = { family: fontFamily, size: typeSize.tick, color: colours.text };
	return {
		data: [
			...keyTraces(figure, colours),
			...layers
				.flatMap((layer) => traces(frame, layer, colours))
				.filter((trace) => (trace.x as readonly unknown[]).length > 0),
		],
		layout: {
			font,
			paper_bgcolor: colours.paper,
			plot_bgcolor: colours.paper,
			width: usualWidth,
			height,
			margin: {
				l: plot.left,
				r: usualWidth - plot.right,
				t: plot.top + shift,
				b: height - plot.bottom - shift,
			},
			xaxis: plotlyAxis(figure, frame, "x", colours),
			yaxis: plotlyAxis(figure, frame, "y", colours),
			// without bars the key would be one that Plotly does not know what to do with
			...(figure.layers.some((l) => l.is === "bars")
				? { barmode: "overlay" }
				: {}),
			hovermode: "closest",
			hoverlabel: {
				align: "left",
				bgcolor: colours.paper,
				bordercolor: colours.quiet,
				font,
			},
			...plotlyKey(frame, colours),
			shapes: [
				...figure.layers.flatMap((l) => plotlyShapes(frame, l, colours)),
				...rowLines(frame, colours),
			],
			annotations: [
				...arrows(placed, frame, colours),
				...labels.map((t) => inside(frame, t, colours)),
				...frameTexts(frame, shift, colours),
			],
		},
		config: {
			responsive: false,
			displaylogo: false,
			typesetMath: false,
			// A stretch that is pulled up with the mouse is zoomed into without a button.
			modeBarButtons: [["toImage", "resetScale2d"]],
		},
	};
}
