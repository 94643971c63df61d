import { area, curveLinear, curveMonotoneX, line } from "d3-shape";
import type { Layer } from "../description";
import { dashArray, fillOpacity, stroke } from "../look";
import type { Drawn } from "./drawn";
import type { Frame } from "./frame";
import type { Paint } from "./paint";
import type { Box } from "./placed-text";

interface Place {
	readonly x: number;
	readonly y: number;
}

/** Small boxes along a curve, so that labels keep off it: no farther apart than their own width, however long the strokes between the points are. */
function boxesAlong(points: readonly Place[], frame: Frame): Box[] {
	const placed = points.map((p) => ({
		x: frame.x.place(p.x),
		y: frame.y.place(p.y),
	}));
	return placed.flatMap((to, i) => {
		const from = placed[Math.max(0, i - 1)];
		const parts = Math.max(
			1,
			Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / 6),
		);
		return Array.from({ length: parts }, (_, k) => {
			const x = from.x + ((k + 1) / parts) * (to.x - from.x);
			const y = from.y + ((k + 1) / parts) * (to.y - from.y);
			return { left: x - 3, right: x + 3, top: y - 3, bottom: y + 3 };
		});
	});
}

function pathThrough(
	frame: Frame,
	points: readonly Place[],
	smooth: boolean,
): string {
	return (
		line<Place>()
			.x((p) => frame.x.place(p.x))
			.y((p) => frame.y.place(p.y))
			.curve(smooth ? curveMonotoneX : curveLinear)
			.digits(2)([...points]) ?? ""
	);
}

export function drawLine(
	frame: Frame,
	paint: Paint,
	layer: Extract<Layer, { is: "line" }>,
): Drawn {
	const path = pathThrough(frame, layer.points, layer.smooth ?? false);
	return {
		svg: `<g class="mark line"><path d="${path}" fill="none"${paint.stroke(layer.ink)} stroke-width="${stroke.line}" stroke-linejoin="round"${paint.dash(dashArray[layer.dash])}/></g>`,
		wishes: [],
		boxes: boxesAlong(layer.points, frame),
	};
}

export function drawBand(
	frame: Frame,
	paint: Paint,
	layer: Extract<Layer, { is: "band" }>,
): Drawn {
	const path = area<{ x: number; low: number; high: number }>()
		.x((p) => frame.x.place(p.x))
		.y0((p) => frame.y.place(p.low))
		.y1((p) => frame.y.place(p.high))
		.digits(2)([...layer.points]);
	return {
		svg: `<g class="mark band"><path d="${path ?? ""}"${paint.fill(layer.ink)} fill-opacity="${fillOpacity.band}"/></g>`,
		wishes: [],
		boxes: [],
	};
}

export function drawRegion(
	frame: Frame,
	paint: Paint,
	layer: Extract<Layer, { is: "region" }>,
): Drawn {
	const path = pathThrough(frame, layer.points, false);
	return {
		svg: `<g class="mark region"><path d="${path}${path === "" ? "" : "Z"}"${paint.both(layer.ink, layer.ink)} fill-opacity="${fillOpacity.region}" stroke-width="${stroke.thin}"/></g>`,
		wishes: [],
		boxes: [],
	};
}
