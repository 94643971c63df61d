import type { Layer } from "../description";
import { dashArray, fillOpacity, type Ink, stroke, symbolArea } from "../look";
import { arrowMark, steps } from "./arrows";
import type { KeyEntry } from "./key";
import type { Paint } from "./paint";
import { hatching, lineFrom, px, symbolMark } from "./strokes";

/** What lies over what in a sign of the key. */
const keyDepth = (layer: Layer): number =>
	layer.is === "points" || layer.is === "arrows"
		? 2
		: layer.is === "line" || layer.is === "reference line"
			? 1
			: 0;

/** The sign of a name in the key: everything that has this name, each kind of mark once. */
export function keyGlyph(paint: Paint, { layers, x, y }: KeyEntry): string {
	const kinds = new Map<Layer["is"], Layer>();
	for (const layer of layers)
		if (!kinds.has(layer.is)) kinds.set(layer.is, layer);
	return [...kinds.values()]
		.sort((a, b) => keyDepth(a) - keyDepth(b))
		.map((layer) => layerGlyph(paint, layer, commonInk(layers, layer), x, y))
		.join("");
}

/** The layer's ink; that of the text where layers of one kind and name differ, since the name is then about all of them. */
export function commonInk(layers: readonly Layer[], layer: Layer): Ink {
	const inks = new Set(
		layers.flatMap((l) => (l.is === layer.is && "ink" in l ? [l.ink] : [])),
	);
	const [ink] = inks;
	return inks.size === 1 ? ink : "text";
}

function layerGlyph(
	paint: Paint,
	layer: Layer,
	ink: Ink,
	x: number,
	y: number,
): string {
	switch (layer.is) {
		case "points":
			return `<g transform="translate(${px(x)} ${px(y)})">${symbolMark(
				paint,
				layer.shape,
				ink,
				layer.points.length > 0 && layer.points.every((p) => p.hollow ?? false),
				layer.size === "large" ? symbolArea.large : symbolArea.small,
			)}</g>`;
		case "arrows": {
			const towards = layer.arrows[0]?.towards ?? "up";
			const [dx, dy] = steps[towards];
			return arrowMark(paint, x - dx * 8, y - dy * 8, { towards }, ink, 17);
		}
		case "bars": {
			const place = `x="${px(x - 9)}" y="${px(y - 6)}" width="18" height="12"`;
			return `<rect ${place}${paint.fill(ink)}/>${hatching(paint, layer.hatch, { left: x - 9, right: x + 9, top: y - 6, bottom: y + 6 })}`;
		}
		case "line":
		case "reference line":
			return lineFrom(
				x - 11,
				y,
				x + 11,
				y,
				`${paint.stroke(ink)} stroke-width="${stroke.line}"${paint.dash(dashArray[layer.dash])}`,
			);
		case "zone":
		case "band":
		case "region":
			return `<rect x="${px(x - 10)}" y="${px(y - 5)}" width="20" height="10"${paint.both(ink, ink)} fill-opacity="${fillOpacity.band}" stroke-width="0.6"/>`;
		default:
			return "";
	}
}
