import { placeOnAxis, spanOf } from "../axes";
import type { Arrow, FigureDescription, Layer } from "../description";
import { type Ink, spacing, stroke, type Theme, typeSize } from "../look";
import { textWidth, wrapped } from "../text";
import { annotated, nominal } from "./axis";
import { type Json, plotlyLines, plotlyText, widestEnd } from "./parts";
import { labelled } from "./room";

const arrowOffsets: Readonly<
	Record<Arrow["towards"], readonly [number, number]>
> = { up: [0, 1], down: [0, -1], left: [-1, 0], right: [1, 0] };

/** An arrow whose tail is at the limit: Plotly's arrows end at their point, so the whole is shifted by its own length. */
function arrowAnnotation(
	figure: FigureDescription,
	arrow: Arrow,
	ink: Ink,
	theme: Theme,
): Json {
	const [dx, dy] = arrowOffsets[arrow.towards];
	return {
		x: annotated(figure.x, arrow.x),
		y: annotated(figure.y, arrow.y),
		xref: "x",
		yref: "y",
		text: "",
		showarrow: true,
		ax: 0 - dx * spacing.arrow,
		ay: dy * spacing.arrow,
		xshift: dx * spacing.arrow,
		yshift: dy * spacing.arrow,
		arrowhead: 2,
		arrowsize: 1.1,
		arrowwidth: stroke.line,
		arrowcolor: theme[ink],
	};
}

function note(text: string, theme: Theme, place: Json): Json {
	return {
		text: plotlyText(text),
		showarrow: false,
		font: { size: typeSize.label, color: theme.text },
		...place,
	};
}

/** Where a value lies on its axis, in px of the nominal figure. */
function nominalPlace(
	figure: FigureDescription,
	which: "x" | "y",
	value: number,
): number {
	const { scale } = figure[which];
	const span = spanOf(figure, which, nominal[which]);
	return nominal[which] * placeOnAxis(scale, span, value);
}

/** True where an arrow before this one points the same way from nearly the same place and says the same: once is enough. */
function saidBefore(figure: FigureDescription, arrow: Arrow): boolean {
	const all = figure.layers.flatMap((l) => (l.is === "arrows" ? l.arrows : []));
	return all
		.slice(0, all.indexOf(arrow))
		.some(
			(a) =>
				a.label === arrow.label &&
				a.towards === arrow.towards &&
				(["x", "y"] as const).every(
					(which) =>
						Math.abs(
							nominalPlace(figure, which, a[which]) -
								nominalPlace(figure, which, arrow[which]),
						) < 14,
				),
		);
}

/** Beyond the tip; beside the shaft where the label would run over the y axis. */
function arrowLabelPlace(figure: FigureDescription, arrow: Arrow): Json {
	const [dx, dy] = arrowOffsets[arrow.towards];
	const place = {
		x: annotated(figure.x, arrow.x),
		y: annotated(figure.y, arrow.y),
		yanchor: "middle",
	};
	const half = textWidth(arrow.label, typeSize.label) / 2;
	return dx === 0 && nominalPlace(figure, "x", arrow.x) < half
		? {
				...place,
				xshift: 8,
				yshift: (dy * spacing.arrow) / 2,
				xanchor: "left",
			}
		: {
				...place,
				xshift: dx * (spacing.arrow + 4),
				yshift: dy * (spacing.arrow + 9),
				xanchor: dx > 0 ? "left" : dx < 0 ? "right" : "center",
			};
}

function arrowNotes(
	figure: FigureDescription,
	layer: Extract<Layer, { is: "arrows" }>,
	theme: Theme,
): Json[] {
	return layer.arrows.flatMap((a) => {
		const arrow = arrowAnnotation(figure, a, layer.ink, theme);
		return a.label === "" || saidBefore(figure, a)
			? [arrow]
			: [arrow, note(a.label, theme, arrowLabelPlace(figure, a))];
	});
}

function referencePlace(
	figure: FigureDescription,
	layer: Extract<Layer, { is: "reference line" }>,
): Json {
	return layer.axis === "x"
		? {
				x: annotated(figure.x, layer.at),
				y: 1,
				yref: "y domain",
				yanchor: "bottom",
			}
		: {
				x: layer.over ? annotated(figure.x, layer.over.high) : 1,
				xref: layer.over ? "x" : "x domain",
				xanchor: "right",
				y: annotated(figure.y, layer.at),
				yanchor: "bottom",
			};
}

function zonePlace(
	figure: FigureDescription,
	layer: Extract<Layer, { is: "zone" }>,
): Json {
	return layer.axis === "x"
		? {
				x:
					(annotated(figure.x, layer.from) + annotated(figure.x, layer.to)) / 2,
				y: 1,
				yref: "y domain",
				yanchor: "bottom",
				// Lines have the row below.
				yshift: labelled(figure, "reference line") ? 16 : 0,
			}
		: {
				x: 1,
				xref: "x domain",
				xanchor: "right",
				y: annotated(figure.y, Math.max(layer.from, layer.to)),
				yanchor: "top",
			};
}

/** Arrows and all texts in the plot. */
export function annotations(
	figure: FigureDescription,
	layer: Layer,
	theme: Theme,
): Json[] {
	switch (layer.is) {
		case "arrows":
			return arrowNotes(figure, layer, theme);
		case "reference line":
			return layer.label === ""
				? []
				: [note(layer.label, theme, referencePlace(figure, layer))];
		case "zone":
			return layer.label === ""
				? []
				: [note(layer.label, theme, zonePlace(figure, layer))];
		case "labels":
			return layer.labels.map((l) =>
				note(l.text, theme, {
					x: annotated(figure.x, l.x),
					y: annotated(figure.y, l.y),
					xanchor: "left",
					xshift: 6,
				}),
			);
		default:
			return [];
	}
}

/** Texts at the far end of the rows of a category y axis. */
export function rowEnds(figure: FigureDescription, theme: Theme): Json[] {
	const { scale } = figure.y;
	if (scale.is !== "categories") return [];
	return (scale.ends ?? []).map((text, i) => ({
		text: `<b>${plotlyLines(wrapped(text, widestEnd, typeSize.tick, true, 3))}</b>`,
		showarrow: false,
		font: { size: typeSize.tick, color: theme.text },
		align: "left",
		x: 1,
		xref: "x domain",
		xanchor: "left",
		xshift: spacing.gap,
		y: i,
		yref: "y",
	}));
}
