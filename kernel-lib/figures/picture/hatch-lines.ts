import type { Hatch } from "../look";
import type { Box } from "./placed-text";

/** Pixels between the lines of a hatch. */
const spacing = 8;

/** Ends of one line. */
type Segment = readonly [x1: number, y1: number, x2: number, y2: number];

/** Multiples of the spacing (shifted) that lie inside. */
function steps(from: number, to: number, shift: number): number[] {
	const first = Math.ceil((from - shift) / spacing);
	const last = Math.floor((to - shift) / spacing);
	return Array.from(
		{ length: Math.max(0, last - first + 1) },
		(_, i) => (first + i) * spacing + shift,
	);
}

function level({ left, right, top, bottom }: Box): Segment[] {
	return steps(top, bottom, spacing / 2).map((y) => [left, y, right, y]);
}

function upright({ left, right, top, bottom }: Box): Segment[] {
	return steps(left, right, spacing / 2).map((x) => [x, top, x, bottom]);
}

/** Lines with x + y constant. */
function rising({ left, right, top, bottom }: Box): Segment[] {
	return steps(left + top, right + bottom, 0).map((sum) => {
		const x1 = Math.max(left, sum - bottom);
		const x2 = Math.min(right, sum - top);
		return [x1, sum - x1, x2, sum - x2];
	});
}

/** Lines with x - y constant. */
function falling({ left, right, top, bottom }: Box): Segment[] {
	return steps(left - bottom, right - top, 0).map((difference) => {
		const x1 = Math.max(left, difference + top);
		const x2 = Math.min(right, difference + bottom);
		return [x1, x1 - difference, x2, x2 - difference];
	});
}

/**
 * The lines of a hatch, cut to a bar. They are drawn out instead of left to a pattern fill, because a browser that prints to PDF turns every pattern fill into a picture of its own:
 * megabytes for one figure.
 */
export function hatchLines(hatch: Hatch, box: Box): readonly Segment[] {
	switch (hatch) {
		case "plain":
			return [];
		case "rising":
			return rising(box);
		case "falling":
			return falling(box);
		case "level":
			return level(box);
		case "crossed":
			return [...level(box), ...upright(box)];
	}
}
