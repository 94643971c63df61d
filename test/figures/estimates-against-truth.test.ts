import { expect, test } from "vitest";
import { straightLines } from "../../kernel-lib/figures/index";
import { repeats } from "./fixtures";

test("shows median and middle of the trials as the repeats have them, and how often the truth was held", () => {
	const f = straightLines(repeats);
	const layer = f.layers.find((l) => l.is === "points");
	expect(
		layer?.is === "points" && layer.points.map((p) => [p.x, p.xInterval]),
	).toEqual(repeats.ways.map((w) => [w.median, { low: w.low, high: w.high }]));
	expect(f.y.scale).toMatchObject({ ends: ["95 %", "99 %", "71 %"] });
	expect(f.alt).toContain("the true value is 387 mg/g");
	expect(f.alt).toContain(
		"C/q against C: median 380 mg/g, 95 % of the trials between 371 and 394 mg/g; its 95 % interval held the truth in 71 % of trials",
	);
});

test("the confidence is that of the repeats", () => {
	const f = straightLines({
		...repeats,
		confidence: 0.9,
		ways: repeats.ways.map((w) => ({ ...w, covered: 0.8 })),
	});
	expect(JSON.stringify([f.alt, f.notes, f.layers])).not.toContain("95 %");
	expect(f.notes.join()).toContain("It should be 90 %.");
});

test("an option that it does not have is refused", () => {
	expect(() => straightLines(repeats, { titel: "x" } as never)).toThrow(
		/"titel".*title/s,
	);
});
