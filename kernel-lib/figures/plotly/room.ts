import { axisTitle } from "../axes";
import type { FigureDescription } from "../description";
import { keyLayers } from "../key-layers";
import { spacing, typeSize } from "../look";
import { textWidth, wrapped } from "../text";
import { narrowest } from "./axis";
import { plotlyLines, widestEnd } from "./parts";

/** Height of a figure without rows, px. */
const height = 480;

/** True where zones or lines along x carry labels, which stand above the plot. */
export function labelled(
	figure: FigureDescription,
	is: "zone" | "reference line",
): boolean {
	return figure.layers.some(
		(l) => l.is === is && l.axis === "x" && l.label !== "",
	);
}

/** Lines of labels above the plot: zones, and reference lines over them. */
function labelLines(figure: FigureDescription): number {
	return (
		Number(labelled(figure, "zone")) +
		Number(labelled(figure, "reference line"))
	);
}

export function endRoom(figure: FigureDescription): number {
	const { scale } = figure.y;
	if (scale.is !== "categories") return 0;
	return Math.max(
		0,
		...(scale.ends ?? [])
			.flatMap((text) => wrapped(text, widestEnd, typeSize.tick, true, 3))
			.map((line) => textWidth(line, typeSize.tick, true) + spacing.gap),
	);
}

export function plotlyHeight(figure: FigureDescription): number {
	const { scale } = figure.y;
	const rows = scale.is === "categories" ? scale.names.length : 0;
	return rows > 0
		? Math.max(280, 160 + rows * Math.min(40, Math.max(22, 420 / rows)))
		: height;
}

/** Room above the plot: title, and the labels of lines and zones. */
export function topMargin(
	figure: FigureDescription,
	titleLines: number,
): number {
	return 36 + 20 * titleLines + 20 * labelLines(figure);
}

export function titleText(lines: readonly string[]): string {
	return `<b>${plotlyLines(lines)}</b>`;
}

/** What of the layout is otherwise on a screen as narrow as a phone's: texts in shorter lines, and room for a key of which every entry takes a line. */
export interface NarrowLayout {
	readonly title: string;
	readonly xTitle: string;
	readonly yTitle: string;
	readonly marginTop: number;
	readonly height: number;
}

export function narrowLayout(figure: FigureDescription): NarrowLayout {
	const title = wrapped(figure.title, narrowest + 30, typeSize.title, true, 6);
	const axis = (which: "x" | "y"): string =>
		plotlyLines(wrapped(axisTitle(figure[which]), 200, typeSize.axis));
	const keys = keyLayers(figure).size;
	return {
		title: titleText(title),
		xTitle: axis("x"),
		yTitle: axis("y"),
		marginTop: topMargin(figure, title.length),
		height: plotlyHeight(figure) + 22 * Math.max(0, keys - 2),
	};
}
