import type { Layer } from "../description";
import { fillOpacity, stroke, type Theme } from "../look";
import { type Json, key, plotlyDashes, transparent } from "./parts";

/** Straight lines and shaded stretches. */
export function plotlyShapes(layer: Layer, theme: Theme): Json[] {
	if (layer.is !== "reference line" && layer.is !== "zone") return [];
	const other = layer.axis === "x" ? "y" : "x";
	const whole = layer.is === "zone" || !layer.over;
	const over =
		layer.is === "reference line" && layer.over
			? [layer.over.low, layer.over.high]
			: [0, 1];
	const ends =
		layer.is === "zone" ? [layer.from, layer.to] : [layer.at, layer.at];
	return [
		{
			type: layer.is === "zone" ? "rect" : "line",
			layer: "below",
			...key(layer.name),
			[`${layer.axis}ref`]: layer.axis,
			[`${other}ref`]: whole ? `${other} domain` : other,
			[`${layer.axis}0`]: ends[0],
			[`${layer.axis}1`]: ends[1],
			[`${other}0`]: over[0],
			[`${other}1`]: over[1],
			...(layer.is === "zone"
				? {
						fillcolor: transparent(theme[layer.ink], fillOpacity.zone),
						line: { color: theme[layer.ink], width: 0.6, dash: "dot" },
					}
				: {
						line: {
							color: theme[layer.ink],
							width: stroke.line,
							dash: plotlyDashes[layer.dash],
						},
					}),
		},
	];
}
