import type { FigureDescription, Layer } from "./description";

function isEmpty(layer: Layer): boolean {
	return (
		("points" in layer && layer.points.length === 0) ||
		(layer.is === "arrows" && layer.arrows.length === 0) ||
		(layer.is === "bars" && layer.bars.length === 0)
	);
}

/** The layers that stand in the key, by name; those without anything in them have no place there. */
export function keyLayers(figure: FigureDescription): Map<string, Layer[]> {
	const named = new Map<string, Layer[]>();
	for (const layer of figure.layers) {
		if (!("name" in layer) || layer.name === "" || isEmpty(layer)) continue;
		named.set(layer.name, [...(named.get(layer.name) ?? []), layer]);
	}
	return named;
}
