import type { Layer } from "../description";
import { dashArray, fillOpacity, stroke, typeSize } from "../look";
import type { Drawn } from "./drawn";
import type { Frame } from "./frame";
import { labelWidth } from "./free-labels";
import type { Paint } from "./paint";
import type { Box } from "./placed-text";
import { lineFrom, px } from "./strokes";

export function drawReference(
	frame: Frame,
	paint: Paint,
	layer: Extract<Layer, { is: "reference line" }>,
): Drawn {
	const { plot } = frame;
	const look = `${paint.stroke(layer.ink)} stroke-width="${stroke.line}"${paint.dash(dashArray[layer.dash])}`;
	const at = frame[layer.axis].place(layer.at);
	if (layer.axis === "x") {
		const from = layer.over ? frame.y.place(layer.over.low) : plot.bottom;
		const to = layer.over ? frame.y.place(layer.over.high) : plot.top;
		const up = frame.stripTops.get(layer) ?? 0;
		return {
			svg: `<g class="reference">${lineFrom(at, Math.max(from, to), at, Math.min(from, to) - up, look)}</g>`,
			wishes: [],
			boxes: [],
		};
	}
	const from = layer.over ? frame.x.place(layer.over.low) : plot.left;
	const to = layer.over ? frame.x.place(layer.over.high) : plot.right;
	const width = labelWidth(layer.label);
	const right = Math.min(plot.right - 2, Math.max(to - 2, from + width + 2));
	const places: { x: number; y: number; anchor: "start" | "middle" | "end" }[] =
		[];
	for (const y of [at - 5, at + 5 + 0.8 * typeSize.label]) {
		places.push({ x: right, y, anchor: "end" });
		for (let part = 0; part <= 1; part += 0.125)
			places.push({
				x: from + 2 + part * Math.max(0, right - width - from - 2),
				y,
				anchor: "start",
			});
	}
	return {
		svg: `<g class="reference">${lineFrom(from, at, to, at, look)}</g>`,
		wishes:
			layer.label === ""
				? []
				: [{ text: layer.label, ink: "text", places, needed: true }],
		boxes: [{ left: from, right: to, top: at - 2, bottom: at + 2 }],
	};
}

export function drawZone(
	frame: Frame,
	paint: Paint,
	layer: Extract<Layer, { is: "zone" }>,
): Drawn {
	const { plot } = frame;
	const ends = [
		frame[layer.axis].place(layer.from),
		frame[layer.axis].place(layer.to),
	].sort((a, b) => a - b);
	const box: Box =
		layer.axis === "x"
			? { left: ends[0], right: ends[1], top: plot.top, bottom: plot.bottom }
			: { left: plot.left, right: plot.right, top: ends[0], bottom: ends[1] };
	const edge = `${paint.stroke(layer.ink)} stroke-width="${stroke.thin}"${paint.dash("2 3")}`;
	const edges =
		layer.axis === "x"
			? lineFrom(ends[0], box.top, ends[0], box.bottom, edge) +
				lineFrom(ends[1], box.top, ends[1], box.bottom, edge)
			: lineFrom(box.left, ends[0], box.right, ends[0], edge) +
				lineFrom(box.left, ends[1], box.right, ends[1], edge);
	const inside = [ends[0] + 4 + 0.8 * typeSize.label, ends[1] - 4];
	return {
		svg: `<g class="zone"><rect x="${px(box.left)}" y="${px(box.top)}" width="${px(box.right - box.left)}" height="${px(box.bottom - box.top)}"${paint.fill(layer.ink)} fill-opacity="${fillOpacity.zone}"/>${edges}</g>`,
		wishes:
			layer.axis === "x" || layer.label === ""
				? []
				: [
						{
							text: layer.label,
							ink: "text",
							places: inside.flatMap((y) => [
								{ x: plot.right - 4, y, anchor: "end" as const },
								{ x: plot.left + 4, y, anchor: "start" as const },
								{
									x: (plot.left + plot.right) / 2,
									y,
									anchor: "middle" as const,
								},
							]),
							needed: true,
						},
					],
		boxes: [],
	};
}
