import type { Arrow, FigureDescription } from "../description";
import { type Ink, spacing, stroke, type Theme } from "../look";
import { steps } from "../picture/arrows";
import { edgeHeads } from "../picture/edge-heads";
import type { Frame } from "../picture/frame";
import type { PlacedText } from "../picture/placed-text";
import { type Json, plotlyText } from "./parts";
import { annotated, heldOnAxis, paperPlace, valueAt } from "./place";

/** How far the middle of a line of text lies above its baseline, as a part of its size. */
const middleOfLine = 0.347;

const anchors = { start: "left", middle: "center", end: "right" } as const;

/** A text of the static picture in its place; over marks with a rim that keeps it readable. */
function textNote(t: PlacedText, theme: Theme, place: Json): Json {
	const weight = t.bold ? { weight: 700 } : {};
	return {
		text: plotlyText(t.text),
		showarrow: false,
		borderpad: 0,
		font: { size: t.size, color: theme[t.ink], ...weight },
		...(t.turned
			? { textangle: -90, xanchor: "center", yanchor: "top" }
			: { xanchor: anchors[t.anchor], yanchor: "middle" }),
		...place,
	};
}

function middleOf(t: PlacedText): { readonly x: number; readonly y: number } {
	return t.turned
		? { x: t.x - middleOfLine * t.size, y: t.y }
		: { x: t.x, y: t.y - middleOfLine * t.size };
}

/** A text around the plot: it stays where it is, whatever part of the data is shown. */
export function outside(frame: Frame, t: PlacedText, theme: Theme): Json {
	const { x, y } = middleOf(t);
	return textNote(t, theme, {
		xref: "paper",
		yref: "paper",
		...paperPlace(frame, x, y),
	});
}

/** A label in the plot: it goes with the data. */
export function inside(frame: Frame, t: PlacedText, theme: Theme): Json {
	const { x, y } = middleOf(t);
	const rim = `0 0 2px ${theme.paper}, 0 0 3px ${theme.paper}, 0 0 3px ${theme.paper}`;
	const note = textNote(t, theme, {
		xref: "x",
		yref: "y",
		x: valueAt(frame, "x", x),
		y: valueAt(frame, "y", y),
	});
	return { ...note, font: { ...(note.font as Json), shadow: rim } };
}

/** The label of a line or a zone above the plot, which goes with it. */
export function aboveThePlot(frame: Frame, t: PlacedText, theme: Theme): Json {
	const { x, y } = middleOf(t);
	return textNote(t, theme, {
		xref: "x",
		yref: "paper",
		x: valueAt(frame, "x", x),
		y: paperPlace(frame, x, y).y,
	});
}

/** An arrow whose tail is at the limit: Plotly's arrows end at their point, so the whole is shifted by its own length. */
function limitArrow(frame: Frame, arrow: Arrow, ink: Ink, theme: Theme): Json {
	const [dx, dy] = steps[arrow.towards];
	return {
		...drawnArrow(theme[ink]),
		x: annotated(frame, "x", heldOnAxis(frame, "x", arrow.x)),
		y: annotated(frame, "y", heldOnAxis(frame, "y", arrow.y)),
		ax: 0 - dx * spacing.arrow,
		ay: 0 - dy * spacing.arrow,
		xshift: dx * spacing.arrow,
		yshift: 0 - dy * spacing.arrow,
	};
}

function drawnArrow(colour: string): Json {
	return {
		xref: "x",
		yref: "y",
		text: "",
		showarrow: true,
		arrowhead: 2,
		arrowsize: 1.1,
		arrowwidth: stroke.line,
		arrowcolor: colour,
	};
}

/** Limits as arrows, and heads at the edge where something lies beyond it. */
export function arrows(
	figure: FigureDescription,
	frame: Frame,
	theme: Theme,
): Json[] {
	const limits = figure.layers.flatMap((layer) =>
		layer.is === "arrows"
			? layer.arrows.map((a) => limitArrow(frame, a, layer.ink, theme))
			: [],
	);
	const heads = edgeHeads(figure, frame).map(({ x, y, towards, ink }) => {
		const [dx, dy] = steps[towards];
		return {
			...drawnArrow(theme[ink]),
			x: valueAt(frame, "x", x),
			y: valueAt(frame, "y", y),
			ax: 0 - dx * spacing.arrowHead,
			ay: 0 - dy * spacing.arrowHead,
		};
	});
	return [...limits, ...heads];
}
