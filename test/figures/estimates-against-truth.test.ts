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
	expect(f.alt).toContain("The true value is 387 mg/g");
	expect(f.alt).toContain(
		"C/q against C: median 380 mg/g, 95 % of the trials between 371 and 394 mg/g; its 95 % interval held the truth in 71 % of trials",
	);
});

test("several sets stand under one another in each row, named and in their order", () => {
	const f = straightLines({ "all flasks": repeats, "weak ones": repeats });
	const sets = f.layers.filter((l) => l.is === "points");
	expect(sets.map((l) => l.name.replace(/:.*/, ""))).toEqual([
		"all flasks",
		"weak ones",
	]);
	const rows = sets.map((l) => (l.is === "points" ? l.points : []));
	rows[0].forEach((p, row) => {
		expect(p.y).toBeLessThan(row);
		expect(rows[1][row].y).toBeGreaterThan(row);
		expect(Math.round(p.y) - row).toBeCloseTo(0);
	});
	expect(f.y.scale).toMatchObject({
		ends: ["95 %, 95 %", "99 %, 99 %", "71 %, 71 %"],
	});
	expect(f.notes.join()).toContain("all flasks and weak ones in this order");
	expect(f.layers.filter((l) => l.is === "reference line")).toHaveLength(1);
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
