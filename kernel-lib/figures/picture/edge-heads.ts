import { beyond } from "../axes";
import type { Direction, FigureDescription, Interval } from "../description";
import type { Ink } from "../look";
import type { Frame } from "./frame";

/** At the edge of the plot (px), pointing to what lies beyond it. */
export interface EdgeHead {
	readonly x: number;
	readonly y: number;
	readonly towards: Direction;
	readonly ink: Ink;
}

interface Mark {
	readonly x: number;
	readonly y: number;
	readonly xInterval?: Interval;
	readonly yInterval?: Interval;
}

function headsOf(
	frame: Frame,
	mark: Mark,
	ink: Ink,
	axes: readonly ("x" | "y")[],
): EdgeHead[] {
	const at = { x: frame.x.place(mark.x), y: frame.y.place(mark.y) };
	return axes.flatMap((which): EdgeHead[] => {
		const interval = mark[`${which}Interval`];
		const sides = new Set(
			(interval ? [interval.low, interval.high] : [mark[which]]).map((v) =>
				beyond(frame[which].span, v),
			),
		);
		const { left, right, top, bottom } = frame.plot;
		const head = (towards: Direction, edge: number): EdgeHead => ({
			...at,
			[which]: edge,
			towards,
			ink,
		});
		return [
			...(sides.has(-1)
				? [which === "x" ? head("left", left) : head("down", bottom)]
				: []),
			...(sides.has(1)
				? [which === "x" ? head("right", right) : head("up", top)]
				: []),
		];
	});
}

/** Where points, error bars and limits lie beyond the axes. A limit has its own arrow along one axis, which tells enough of it. */
export function edgeHeads(figure: FigureDescription, frame: Frame): EdgeHead[] {
	return figure.layers.flatMap((layer) => {
		if (layer.is === "points")
			return layer.points.flatMap((p) =>
				headsOf(frame, p, layer.ink, ["x", "y"]),
			);
		return layer.is === "arrows"
			? layer.arrows.flatMap((a) =>
					headsOf(frame, a, layer.ink, [
						a.towards === "up" || a.towards === "down" ? "x" : "y",
					]),
				)
			: [];
	});
}
