import type { Layer } from "../description";
import { drawArrows } from "./arrows";
import { drawBars } from "./bars";
import { drawBand, drawLine, drawRegion } from "./curves";
import type { Drawn } from "./drawn";
import type { Frame } from "./frame";
import { around } from "./free-labels";
import type { Paint } from "./paint";
import { drawPoints } from "./points";
import { drawReference, drawZone } from "./references";

function drawLabels(
	frame: Frame,
	layer: Extract<Layer, { is: "labels" }>,
): Drawn {
	return {
		svg: "",
		wishes: layer.labels.map((l) => ({
			text: l.text,
			ink: "text" as const,
			places: around(frame.x.place(l.x), frame.y.place(l.y), 6),
			needed: true,
		})),
		boxes: [],
	};
}

/** Everything that a layer puts into the picture. */
export function drawLayer(frame: Frame, paint: Paint, layer: Layer): Drawn {
	switch (layer.is) {
		case "points":
			return drawPoints(frame, paint, layer);
		case "arrows":
			return drawArrows(frame, paint, layer);
		case "bars":
			return drawBars(frame, paint, layer);
		case "line":
			return drawLine(frame, paint, layer);
		case "band":
			return drawBand(frame, paint, layer);
		case "region":
			return drawRegion(frame, paint, layer);
		case "reference line":
			return drawReference(frame, paint, layer);
		case "zone":
			return drawZone(frame, paint, layer);
		case "labels":
			return drawLabels(frame, layer);
	}
}
