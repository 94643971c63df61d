import {
	axisTitle,
	isBare,
	placeOnAxis,
	spacedTicks,
	spanOf,
	type Tick,
	ticksOf,
} from "../axes";
import type { Axis, FigureDescription, Interval, Scale } from "../description";
import { type Theme, typeSize } from "../look";
import { wrapped } from "../text";
import { type Json, plotlyLines, widestName } from "./parts";

/** Lengths of the axes in px for which ranges are worked out; the figure itself fits its place, and a long key takes some of its height. */
export const nominal = { x: 600, y: 280 } as const;

/** Length of the x axis on a phone, px. */
export const narrowest = 290;

/** Where annotations stand on an axis: Plotly wants the logarithm there, and only there. */
export function annotated(axis: Axis, value: number): number {
	return axis.scale.is === "log" ? Math.log10(value) : value;
}

/** Marks of our own choice along an axis. */
function marked(ticks: readonly Tick[]): Json {
	return {
		tickmode: "array",
		tickvals: ticks.map((t) => t.at),
		ticktext: ticks.map((t) => t.text),
	};
}

function categoryAxis(
	names: readonly string[],
	which: "x" | "y",
	{ low, high }: Interval,
): Json {
	const width = which === "x" ? 90 : widestName;
	return {
		type: "linear",
		showgrid: false,
		tickmode: "array",
		tickvals: names.map((_, i) => i),
		ticktext: names.map((n) =>
			plotlyLines(wrapped(n, width, typeSize.tick, false, 4)),
		),
		// The first category is on top.
		range: which === "x" ? [low, high] : [high, low],
	};
}

/** Ticks of our own; on x no closer than a phone has room for: Plotly would turn those that run into one another. */
function plotlyTicks(
	scale: Scale,
	which: "x" | "y",
	span: Interval,
): readonly Tick[] {
	const all = ticksOf(scale, span, 9);
	return which === "y"
		? all
		: spacedTicks(
				all,
				(value) => placeOnAxis(scale, span, value) * narrowest,
				-typeSize.tick,
				narrowest + typeSize.tick,
			);
}

export function plotlyAxis(
	figure: FigureDescription,
	which: "x" | "y",
	theme: Theme,
): Json {
	const axis = figure[which];
	const { scale } = axis;
	const span = spanOf(figure, which, nominal[which]);
	const common: Json = {
		title: {
			text: plotlyLines(
				wrapped(
					axisTitle(axis),
					which === "x" ? 560 : nominal.y,
					typeSize.axis,
				),
			),
			font: { size: typeSize.axis, color: theme.quiet },
		},
		tickfont: { size: typeSize.tick, color: theme.text },
		linecolor: theme.quiet,
		showline: true,
		zeroline: false,
		automargin: true,
		fixedrange: false,
	};
	if (scale.is === "categories")
		return { ...common, ...categoryAxis(scale.names, which, span) };
	if (scale.is === "log")
		return {
			...common,
			type: "log",
			gridcolor: theme.grid,
			...marked(plotlyTicks(scale, which, span)),
			range: [Math.log10(span.low), Math.log10(span.high)],
		};
	return {
		...common,
		type: "linear",
		gridcolor: theme.grid,
		range: [span.low, span.high],
		...(isBare(figure, which) ? marked([]) : {}),
		...(scale.whole ? marked(plotlyTicks(scale, which, span)) : {}),
	};
}
