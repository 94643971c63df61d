import type { FigureDescription } from "../description";
import { stroke, type Theme, typeSize } from "../look";
import type { Frame } from "../picture/frame";
import { type Json, plotlyText } from "./parts";
import { annotated } from "./place";

/** One axis with the ends and the ticks of the static picture. Names of categories are annotations. */
export function plotlyAxis(
	figure: FigureDescription,
	frame: Frame,
	which: "x" | "y",
	theme: Theme,
): Json {
	const { scale } = figure[which];
	const { span, ticks } = frame[which];
	const ends = [
		annotated(frame, which, span.low),
		annotated(frame, which, span.high),
	];
	const bare = which === "y" && frame.rowTops.length > 0;
	return {
		type: scale.is === "log" ? "log" : "linear",
		// The first row is on top.
		range: which === "y" && scale.is === "categories" ? ends.reverse() : ends,
		fixedrange: scale.is === "categories",
		tickmode: "array",
		tickvals: ticks.map((t) => t.at),
		ticktext: ticks.map((t) => plotlyText(t.text)),
		tickangle: 0,
		ticks: "",
		ticklabelstandoff: which === "x" ? 0 : 3,
		tickfont: { size: typeSize.tick, color: theme.text },
		...(scale.is === "categories"
			? { showgrid: false }
			: { gridcolor: theme.grid, gridwidth: stroke.thin }),
		...(bare
			? { showline: false }
			: {
					showline: true,
					linecolor: theme.quiet,
					linewidth: stroke.thin,
				}),
		zeroline: false,
		automargin: false,
	};
}
