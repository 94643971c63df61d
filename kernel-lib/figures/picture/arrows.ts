import type { Arrow, Direction, Layer } from "../description";
import { type Ink, spacing, stroke, symbolArea, typeSize } from "../look";
import type { Drawn } from "./drawn";
import type { Frame } from "./frame";
import { around, type LabelWish } from "./free-labels";
import type { Paint } from "./paint";
import type { Box } from "./placed-text";
import { lineFrom, px, symbolMark, tip } from "./strokes";

/** One step in each direction; down is positive, as in the picture. */
export const steps: Readonly<Record<Direction, readonly [number, number]>> = {
	up: [0, -1],
	down: [0, 1],
	left: [-1, 0],
	right: [1, 0],
};

/** An arrow of fixed length from (x, y), with a plain stroke or a symbol at its foot. */
export function arrowMark(
	paint: Paint,
	x: number,
	y: number,
	arrow: Pick<Arrow, "towards" | "shape" | "hollow">,
	ink: Ink,
	length: number,
): string {
	const [dx, dy] = steps[arrow.towards];
	const tipX = x + dx * length;
	const tipY = y + dy * length;
	const head = spacing.arrowHead;
	const side = head * 0.6;
	const neckX = tipX - dx * head;
	const neckY = tipY - dy * head;
	const look = paint.stroke(ink);
	const points = [
		[tipX, tipY],
		[neckX - dy * side, neckY + dx * side],
		[neckX + dy * side, neckY - dx * side],
	]
		.map(([a, b]) => `${px(a)},${px(b)}`)
		.join(" ");
	const foot = arrow.shape
		? `<g transform="translate(${px(x)} ${px(y)})">${symbolMark(paint, arrow.shape, ink, arrow.hollow ?? false, symbolArea.small)}</g>`
		: lineFrom(
				x + dy * 5,
				y + dx * 5,
				x - dy * 5,
				y - dx * 5,
				`${look} stroke-width="${stroke.strong}"`,
			);
	return `${lineFrom(x, y, neckX, neckY, `${look} stroke-width="${stroke.line}"`)}<polygon points="${points}"${paint.fill(ink)}/>${foot}`;
}

export function drawArrows(
	frame: Frame,
	paint: Paint,
	layer: Extract<Layer, { is: "arrows" }>,
): Drawn {
	const svg: string[] = [];
	const wishes: LabelWish[] = [];
	const boxes: Box[] = [];
	for (const a of layer.arrows) {
		const x = frame.x.place(a.x);
		const y = frame.y.place(a.y);
		const [dx, dy] = steps[a.towards];
		svg.push(
			`<g class="mark arrow arrow-${a.towards}">${tip(a.hover)}${arrowMark(paint, x, y, a, layer.ink, spacing.arrow)}</g>`,
		);
		const tipX = x + dx * spacing.arrow;
		const tipY = y + dy * spacing.arrow;
		boxes.push({
			left: Math.min(x, tipX) - 5,
			right: Math.max(x, tipX) + 5,
			top: Math.min(y, tipY) - 5,
			bottom: Math.max(y, tipY) + 5,
		});
		wishes.push({
			text: a.label,
			ink: "text",
			places:
				dx === 0
					? [
							...[0, 8, 16].map((further) => ({
								x,
								y:
									dy < 0
										? tipY - 4 - further
										: tipY + 4 + 0.8 * typeSize.label + further,
								anchor: "middle" as const,
							})),
							...around(x, (y + tipY) / 2, 8).slice(0, 2),
							...around(x, tipY, 6).slice(0, 2),
						]
					: [
							...around(tipX, tipY, 5).slice(dx > 0 ? 0 : 1, dx > 0 ? 1 : 2),
							...around((x + tipX) / 2, y, 8).slice(2),
						],
			needed: true,
		});
	}
	return { svg: svg.join(""), wishes, boxes };
}
