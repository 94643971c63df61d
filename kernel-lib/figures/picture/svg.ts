import {
	type OptionRule,
	requireOptions,
	requireResult,
	wordOption,
} from "../../quantity";
import type { FigureDescription } from "../description";
import { figureKind } from "../doors";
import { fontFamily, spacing, stroke } from "../look";
import { xmlText } from "../text";
import { steps } from "./arrows";
import { depth, drawAll } from "./draw-all";
import { type EdgeHead, edgeHeads } from "./edge-heads";
import { type Frame, frameOf } from "./frame";
import { keyGlyph } from "./key-glyph";
import { type Paint, type PictureTheme, paintOf } from "./paint";
import type { PlacedText } from "./placed-text";
import { px } from "./strokes";

export interface PictureOptions {
	/** Width in px, 240 to 4000; 640 if not given. The height follows from what is shown. */
	readonly width?: number;
	/** Height of the plot alone in px, 120 to 4000; it follows from the width if not given. Rows of categories keep their own. */
	readonly plotHeight?: number;
	/** "auto" if not given: light or dark as the reader's screen prefers, light in print. */
	readonly theme?: PictureTheme;
}

/** Narrower than this the texts have no room; wider than that no screen is. Our decision. */
const narrowest = 240;
const widest = 4000;
/** Lower than this a plot has no room for its ticks. Our decision. */
const lowest = 120;

/** Width for a page or a notebook, where the texts of a figure come out nearly as large as those around it. Our decision. */
export const usualWidth = 640;

function textMark(t: PlacedText, paint: Paint, overMarks: boolean): string {
	const turned = t.turned
		? ` transform="rotate(-90 ${px(t.x)} ${px(t.y)})"`
		: "";
	const anchor = t.anchor === "start" ? "" : ` text-anchor="${t.anchor}"`;
	const weight = t.bold ? ' font-weight="bold"' : "";
	const whole = t.text === t.whole ? "" : `<title>${xmlText(t.whole)}</title>`;
	const colour = overMarks
		? `${paint.both(t.ink, "paper")} stroke-width="3" stroke-linejoin="round" paint-order="stroke"`
		: paint.fill(t.ink);
	return `<text data-role="${t.role}" x="${px(t.x)}" y="${px(t.y)}" font-size="${t.size}"${anchor}${weight}${colour}${turned}>${whole}${xmlText(t.text)}</text>`;
}

function gridLines(frame: Frame, paint: Paint): string {
	const { plot, x, y } = frame;
	const look = `${paint.stroke("grid")} stroke-width="${stroke.thin}"`;
	const at = (x1: number, y1: number, x2: number, y2: number): string =>
		`<line x1="${px(x1)}" y1="${px(y1)}" x2="${px(x2)}" y2="${px(y2)}"${look}/>`;
	return [
		...x.ticks.map((t) =>
			at(x.place(t.at), plot.top, x.place(t.at), plot.bottom),
		),
		...y.ticks.map((t) =>
			at(plot.left, y.place(t.at), plot.right, y.place(t.at)),
		),
		...frame.rowTops.slice(1).map((top) => at(plot.left, top, plot.right, top)),
	].join("");
}

function axisLines(frame: Frame, paint: Paint): string {
	const { plot } = frame;
	const look = `${paint.stroke("quiet")} stroke-width="${stroke.thin}"`;
	return `<line x1="${px(plot.left)}" y1="${px(plot.bottom)}" x2="${px(plot.right)}" y2="${px(plot.bottom)}"${look}/>${
		frame.rowTops.length > 0
			? ""
			: `<line x1="${px(plot.left)}" y1="${px(plot.top)}" x2="${px(plot.left)}" y2="${px(plot.bottom)}"${look}/>`
	}`;
}

/** A head that points out of the plot. */
function edgeMark({ x, y, towards, ink }: EdgeHead, paint: Paint): string {
	const [dx, dy] = steps[towards];
	const { arrowHead } = spacing;
	const side = arrowHead * 0.6;
	const foot = [x - dx * arrowHead, y - dy * arrowHead];
	const corners = [
		[x, y],
		[foot[0] - dy * side, foot[1] + dx * side],
		[foot[0] + dy * side, foot[1] - dx * side],
	];
	return `<g class="beyond"><polygon points="${corners.map(([a, b]) => `${px(a)},${px(b)}`).join(" ")}"${paint.fill(ink)}/></g>`;
}

const optionRules: Readonly<Record<keyof PictureOptions, OptionRule>> = {
	width: {
		expected: `a width between ${narrowest} and ${widest} px`,
		accepts: (value) =>
			typeof value === "number" && value >= narrowest && value <= widest,
	},
	plotHeight: {
		expected: `a height between ${lowest} and ${widest} px`,
		accepts: (value) =>
			typeof value === "number" && value >= lowest && value <= widest,
	},
	theme: wordOption("auto", "light", "dark"),
};

/**
 * The static picture of a figure as a text of SVG, to be written to a file or put into a page: no scripts, no addresses outside itself, every text escaped, and the same text for the same figure every time.
 *
 * @throws ProblemError for options that it does not have, and for a width that is not between 240 and 4000 px
 * @example
 * const mass = quantity.input("mass", 0.5, "g", quantity.normal(0.001), {});
 * figures.figureSvg(figures.uncertaintyBudget(mass), { width: 400 }).slice(0, 4) // => "<svg"
 */
export function figureSvg(
	figure: FigureDescription,
	options: PictureOptions = {},
): string {
	requireResult(figure, figureKind, "figures.figureSvg");
	requireOptions(options, optionRules, "figures.figureSvg");
	const { width = usualWidth, theme = "auto" } = options;
	const frame = frameOf(figure, width, options.plotHeight);
	const paint = paintOf(theme);
	const { drawn, labels } = drawAll(figure, frame, paint);
	const marks = (from: number, to: number): string =>
		drawn
			.filter((d) => depth[d.layer.is] >= from && depth[d.layer.is] <= to)
			.map((d) => d.drawn.svg)
			.join("");
	const inPlot = frame.rowTops.length > 0;
	return [
		`<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${frame.height}" viewBox="0 0 ${width} ${frame.height}" role="img" aria-label="${xmlText(figure.alt)}" font-family="${fontFamily}">`,
		`<title>${xmlText(figure.title)}</title><desc>${xmlText(figure.alt)}</desc>`,
		paint.style,
		`<rect width="${width}" height="${frame.height}"${paint.fill("paper")}/>`,
		marks(0, 0),
		gridLines(frame, paint),
		marks(1, 3),
		axisLines(frame, paint),
		marks(4, 6),
		edgeHeads(figure, frame)
			.map((head) => edgeMark(head, paint))
			.join(""),
		`<g class="key">${frame.key.map((entry) => keyGlyph(paint, entry)).join("")}</g>`,
		frame.texts
			.map((t) =>
				textMark(
					t,
					paint,
					inPlot && (t.role === "category" || t.role === "row end"),
				),
			)
			.join(""),
		labels.map((t) => textMark(t, paint, true)).join(""),
		"</svg>",
	].join("");
}
