/** Places of the static picture, as Plotly wants them: the interactive figure has the same frame. */
import { beyond } from "../axes";
import type { Layer } from "../description";
import type { Frame } from "../picture/frame";

/** Where annotations stand on an axis: Plotly wants the logarithm there, and only there. */
export function annotated(
	frame: Frame,
	which: "x" | "y",
	value: number,
): number {
	return frame[which].axis.scale.is === "log" ? Math.log10(value) : value;
}

/** The value that lies at a place in px, for an annotation. */
export function valueAt(frame: Frame, which: "x" | "y", px: number): number {
	const { span } = frame[which];
	const { left, right, top, bottom } = frame.plot;
	const part =
		which === "x"
			? (px - left) / (right - left)
			: (bottom - px) / (bottom - top);
	const scale = frame[which].axis.scale.is;
	const [low, high] = [
		annotated(frame, which, span.low),
		annotated(frame, which, span.high),
	];
	// Rows count downwards.
	return scale === "categories" && which === "y"
		? high - part * (high - low)
		: low + part * (high - low);
}

/** A place in px, in parts of the plot, which Plotly calls paper. */
export function paperPlace(
	{ plot }: Frame,
	x: number,
	y: number,
): { readonly x: number; readonly y: number } {
	return {
		x: (x - plot.left) / (plot.right - plot.left),
		y: (plot.bottom - y) / (plot.bottom - plot.top),
	};
}

/** A value, or the end of the axis that it lies beyond. */
export function heldOnAxis(
	frame: Frame,
	which: "x" | "y",
	value: number,
): number {
	const { span } = frame[which];
	const side = beyond(span, value);
	return side < 0 ? span.low : side > 0 ? span.high : value;
}

/** Where a place within a row lies between -0.5 and 0.5 of it: lower where the row carries its name above its marks. */
export function inRow(frame: Frame, y: number): number {
	const count = frame.rowTops.length;
	const { top, bottom } = frame.plot;
	return count === 0
		? y
		: ((frame.y.place(y) - top) * count) / (bottom - top) - 0.5;
}

/** A layer with its places along the rows. */
export function layerInRows(frame: Frame, layer: Layer): Layer {
	const at = (y: number): number => inRow(frame, y);
	if (frame.rowTops.length === 0) return layer;
	switch (layer.is) {
		case "points":
			return {
				...layer,
				points: layer.points.map((p) => ({ ...p, y: at(p.y) })),
			};
		case "arrows":
			return {
				...layer,
				arrows: layer.arrows.map((a) => ({ ...a, y: at(a.y) })),
			};
		case "bars":
			return layer.along === "x"
				? {
						...layer,
						width: at(layer.width / 2) - at(-layer.width / 2),
						bars: layer.bars.map((b) => ({ ...b, at: at(b.at) })),
					}
				: layer;
		case "line":
		case "region":
			return {
				...layer,
				points: layer.points.map((p) => ({ ...p, y: at(p.y) })),
			};
		default:
			return layer;
	}
}
