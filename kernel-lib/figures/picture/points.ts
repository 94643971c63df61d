import { beyond } from "../axes";
import type { Interval, Layer, Point } from "../description";
import { spacing, stroke, symbolArea } from "../look";
import type { Drawn } from "./drawn";
import type { AxisFrame, Frame } from "./frame";
import { anywhereAround } from "./free-labels";
import type { Paint } from "./paint";
import type { Box } from "./placed-text";
import { lineFrom, px, symbolMark, tip } from "./strokes";

type Points = Extract<Layer, { is: "points" }>;

function errorBar(
	axis: AxisFrame,
	along: "x" | "y",
	across: number,
	interval: Interval | undefined,
	width: number,
	look: string,
): string {
	if (!interval) return "";
	const a = axis.place(interval.low);
	const b = axis.place(interval.high);
	// An end beyond the axis has no cap: an arrowhead stands there.
	const ends = [interval.low, interval.high]
		.filter((v) => beyond(axis.span, v) === 0)
		.map((v) => axis.place(v));
	const cap = spacing.cap + width - 1;
	const all = `${look} stroke-width="${width}"`;
	const drawn =
		along === "y"
			? [
					lineFrom(across, a, across, b, all),
					...ends.map((e) => lineFrom(across - cap, e, across + cap, e, all)),
				]
			: [
					lineFrom(a, across, b, across, all),
					...ends.map((e) => lineFrom(e, across - cap, e, across + cap, all)),
				];
	return drawn.join("");
}

/** What labels should keep off: symbol and error bars apart, since a label may stand in the corner between two bars. */
function boxesOf(frame: Frame, p: Point, reach: number): Box[] {
	const x = frame.x.place(p.x);
	const y = frame.y.place(p.y);
	const cap = spacing.cap + 1;
	const ends = (axis: AxisFrame, interval: Interval): number[] =>
		[axis.place(interval.low), axis.place(interval.high)].sort((a, b) => a - b);
	const boxes: Box[] = [
		{ left: x - reach, right: x + reach, top: y - reach, bottom: y + reach },
	];
	if (p.xInterval) {
		const [left, right] = ends(frame.x, p.xInterval);
		boxes.push({ left, right, top: y - cap, bottom: y + cap });
	}
	if (p.yInterval) {
		const [top, bottom] = ends(frame.y, p.yInterval);
		boxes.push({ left: x - cap, right: x + cap, top, bottom });
	}
	return boxes;
}

function pointMark(frame: Frame, paint: Paint, layer: Points, p: Point): Drawn {
	const x = frame.x.place(p.x);
	const y = frame.y.place(p.y);
	const large = layer.size === "large";
	const width = large ? stroke.strong : stroke.thin;
	const look = paint.stroke(layer.ink);
	const bars =
		errorBar(frame.x, "x", y, p.xInterval, width, look) +
		errorBar(frame.y, "y", x, p.yInterval, width, look);
	const onAxes =
		beyond(frame.x.span, p.x) === 0 && beyond(frame.y.span, p.y) === 0;
	const mark = onAxes
		? symbolMark(
				paint,
				layer.shape,
				layer.ink,
				p.hollow ?? false,
				large ? symbolArea.large : symbolArea.small,
			)
		: "";
	const reach = large ? 8 : 6;
	const label = p.label ?? "";
	return {
		svg: `<g class="mark point">${tip(p.hover)}${bars}<g transform="translate(${px(x)} ${px(y)})">${mark}</g></g>`,
		boxes: boxesOf(frame, p, reach),
		wishes:
			label === ""
				? []
				: [
						{
							text: label,
							ink: "text",
							places: anywhereAround(x, y, reach + 2),
							needed: false,
						},
					],
	};
}

export function drawPoints(frame: Frame, paint: Paint, layer: Points): Drawn {
	const marks = layer.points.map((p) => pointMark(frame, paint, layer, p));
	return {
		svg: marks.map((m) => m.svg).join(""),
		wishes: marks.flatMap((m) => m.wishes),
		boxes: marks.flatMap((m) => m.boxes),
	};
}
