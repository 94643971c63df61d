import * as fc from "fast-check";
import { expect, test } from "vitest";
import { hatches } from "../../../kernel-lib/figures/look";
import { hatchLines } from "../../../kernel-lib/figures/picture/hatch-lines";

const boxes = fc
	.tuple(
		fc.double({ min: -500, max: 500, noNaN: true }),
		fc.double({ min: -500, max: 500, noNaN: true }),
		fc.double({ min: 0, max: 400, noNaN: true }),
		fc.double({ min: 0, max: 400, noNaN: true }),
	)
	.map(([left, top, width, height]) => ({
		left,
		top,
		right: left + width,
		bottom: top + height,
	}));

test("no line of a hatch leaves its bar", () => {
	fc.assert(
		fc.property(boxes, fc.constantFrom(...hatches), (box, hatch) => {
			for (const [x1, y1, x2, y2] of hatchLines(hatch, box))
				for (const [x, y] of [
					[x1, y1],
					[x2, y2],
				]) {
					expect(x).toBeGreaterThanOrEqual(box.left - 1e-9);
					expect(x).toBeLessThanOrEqual(box.right + 1e-9);
					expect(y).toBeGreaterThanOrEqual(box.top - 1e-9);
					expect(y).toBeLessThanOrEqual(box.bottom + 1e-9);
				}
		}),
	);
});

test("a bar of 80 by 40 has its lines eight apart", () => {
	const box = { left: 0, right: 80, top: 0, bottom: 40 };
	expect(hatchLines("plain", box)).toEqual([]);
	expect(hatchLines("level", box).map((s) => s[1])).toEqual([
		4, 12, 20, 28, 36,
	]);
	expect(hatchLines("crossed", box)).toHaveLength(5 + 10);
	// x + y (or x - y) from 0 to 120 in steps of eight, both ends counted.
	expect(hatchLines("rising", box)).toHaveLength(16);
	expect(hatchLines("falling", box)).toHaveLength(16);
});
