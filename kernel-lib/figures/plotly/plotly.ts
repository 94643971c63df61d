import type { FigureDescription } from "../description";
import { keyLayers } from "../key-layers";
import {
	fontFamily,
	spacing,
	type Theme,
	type ThemeName,
	themes,
	typeSize,
} from "../look";
import { wrapped } from "../text";
import { annotations, rowEnds } from "./annotations";
import { plotlyAxis } from "./axis";
import { type Json, key } from "./parts";
import { endRoom, plotlyHeight, titleText, topMargin } from "./room";
import { plotlyShapes } from "./shapes";
import { sharedKeys, traces } from "./traces";

/** What `Plotly.newPlot(element, data, layout, config)` takes. Plain JSON. */
export interface PlotlyFigure {
	readonly data: readonly Readonly<Record<string, unknown>>[];
	readonly layout: Readonly<Record<string, unknown>>;
	readonly config: Readonly<Record<string, unknown>>;
}

/**
 * Gives each name one entry in the key, however many layers share it.
 * @returns how many entries there are
 */
function nameOnce(figure: FigureDescription, drawn: readonly Json[]): number {
	const inKey = new Set(
		[...keyLayers(figure).keys()].map((name) => String(key(name).name)),
	);
	const named = new Set<string>();
	for (const trace of drawn) {
		const name = String(trace.name);
		if (trace.showlegend && (named.has(name) || !inKey.has(name)))
			trace.showlegend = false;
		if (name !== "") trace.legendgroup = name;
		if (trace.showlegend) named.add(name);
	}
	return named.size;
}

/** False for a trace that has nothing in it, and for one that only stands for a name in the key and is not needed there. */
function isDrawn(trace: Json): boolean {
	const x = trace.x as readonly unknown[];
	return x.length > 0 && (trace.showlegend === true || x[0] !== null);
}

function plotlyTitle(lines: readonly string[], colours: Theme): Json {
	return {
		text: titleText(lines),
		x: 0,
		xref: "container",
		xanchor: "left",
		pad: { l: spacing.edge, t: spacing.edge },
		y: 1,
		yref: "container",
		yanchor: "top",
		font: { size: typeSize.title, color: colours.text },
	};
}

function plotlyKey(entries: number, colours: Theme): Json {
	return entries === 0
		? { showlegend: false }
		: {
				showlegend: true,
				legend: {
					orientation: "h",
					x: 0,
					xanchor: "left",
					y: 0,
					yref: "container",
					yanchor: "bottom",
					font: { size: typeSize.legend, color: colours.text },
				},
			};
}

/**
 * The interactive form of a figure, for Plotly's basic build (scatter and bar traces, shapes, annotations). The numbers are those of the description; every text is made
 * harmless, and mathematics and hover templates are not interpreted.
 */
export function plotlyFigure(
	figure: FigureDescription,
	theme: ThemeName = "light",
): PlotlyFigure {
	const colours = themes[theme];
	const data = [
		...sharedKeys(figure, colours),
		...figure.layers.flatMap((layer) => traces(layer, colours)),
	];
	const shapes = figure.layers.flatMap((l) => plotlyShapes(l, colours));
	const entries = nameOnce(figure, [...data, ...shapes]);
	const titleLines = wrapped(figure.title, 640, typeSize.title, true, 4);
	const font = { family: fontFamily, size: typeSize.tick, color: colours.text };
	return {
		data: data.filter(isDrawn),
		layout: {
			title: plotlyTitle(titleLines, colours),
			font,
			paper_bgcolor: colours.paper,
			plot_bgcolor: colours.paper,
			height: plotlyHeight(figure),
			margin: {
				l: 60,
				r: 20 + endRoom(figure),
				t: topMargin(figure, titleLines.length),
				b: 60,
			},
			xaxis: plotlyAxis(figure, "x", colours),
			yaxis: plotlyAxis(figure, "y", colours),
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
			...plotlyKey(entries, colours),
			shapes,
			annotations: [
				...figure.layers.flatMap((l) => annotations(figure, l, colours)),
				...rowEnds(figure, colours),
			],
		},
		config: {
			responsive: true,
			displaylogo: false,
			typesetMath: false,
			modeBarButtonsToRemove: ["select2d", "lasso2d", "autoScale2d"],
		},
	};
}
