import type { FigureDescription, Layer } from "../description";
import type { Drawn } from "./drawn";
import type { Frame } from "./frame";
import { placeLabels } from "./free-labels";
import { drawLayer } from "./marks";
import type { Paint } from "./paint";
import { type PlacedText, textBox } from "./placed-text";

/** What lies under what: areas, then bars, then lines, then points. */
export const depth: Readonly<Record<Layer["is"], number>> = {
	zone: 0,
	band: 1,
	region: 1,
	bars: 2,
	"reference line": 3,
	line: 4,
	points: 5,
	arrows: 5,
	labels: 6,
};

/** All layers, the deepest first, and their labels where each has found a place. */
export function drawAll(
	figure: FigureDescription,
	frame: Frame,
	paint: Paint,
): {
	readonly drawn: readonly { readonly layer: Layer; readonly drawn: Drawn }[];
	readonly labels: readonly PlacedText[];
} {
	const drawn = figure.layers
		.map((layer) => ({ layer, drawn: drawLayer(frame, paint, layer) }))
		.sort((a, b) => depth[a.layer.is] - depth[b.layer.is]);
	const labels = placeLabels(
		// Needed labels choose first.
		drawn
			.flatMap((d) => d.drawn.wishes)
			.sort((a, b) => Number(b.needed) - Number(a.needed)),
		frame.plot,
		frame.texts.map(textBox),
		drawn.flatMap((d) => d.drawn.boxes),
	);
	return { drawn, labels };
}
