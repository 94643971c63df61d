import type { Layer } from "../description";
import { fillOpacity, stroke } from "../look";
import type { Drawn } from "./drawn";
import type { Frame } from "./frame";
import { around, type LabelWish } from "./free-labels";
import type { Paint } from "./paint";
import type { Box } from "./placed-text";
import { hatching, px, tip } from "./strokes";

export function drawBars(
	frame: Frame,
	paint: Paint,
	layer: Extract<Layer, { is: "bars" }>,
): Drawn {
	const along = frame[layer.along];
	const across = frame[layer.along === "x" ? "y" : "x"];
	const svg: string[] = [];
	const wishes: LabelWish[] = [];
	const boxes: Box[] = [];
	for (const bar of layer.bars) {
		const ends = [along.place(bar.from), along.place(bar.to)].sort(
			(a, b) => a - b,
		);
		const sides = [
			across.place(bar.at - layer.width / 2),
			across.place(bar.at + layer.width / 2),
		].sort((a, b) => a - b);
		const box: Box =
			layer.along === "x"
				? { left: ends[0], right: ends[1], top: sides[0], bottom: sides[1] }
				: { left: sides[0], right: sides[1], top: ends[0], bottom: ends[1] };
		const place = `x="${px(box.left)}" y="${px(box.top)}" width="${px(box.right - box.left)}" height="${px(box.bottom - box.top)}"`;
		const filling = bar.hollow
			? `<rect ${place}${paint.both(layer.ink, layer.ink)} fill-opacity="${fillOpacity.region}" stroke-width="${stroke.thin}"/>`
			: `<rect ${place}${paint.fill(layer.ink)}/>${hatching(paint, layer.hatch, box)}<rect ${place} fill="none"${paint.stroke("paper")} stroke-width="0.8"/>`;
		svg.push(`<g class="mark bar">${tip(bar.hover)}${filling}</g>`);
		boxes.push(box);
		if ((bar.label ?? "") !== "")
			wishes.push({
				text: bar.label ?? "",
				ink: "text",
				places:
					layer.along === "x"
						? around(along.place(bar.to), (box.top + box.bottom) / 2, 5).slice(
								bar.to >= bar.from ? 0 : 1,
								bar.to >= bar.from ? 1 : 2,
							)
						: around((box.left + box.right) / 2, along.place(bar.to), 4).slice(
								bar.to >= bar.from ? 2 : 3,
							),
				needed: true,
			});
	}
	return { svg: svg.join(""), wishes, boxes };
}
