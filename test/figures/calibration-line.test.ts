import { expect, test } from "vitest";
import { readTrial } from "../../kernel-lib/bench/index";
import {
	lineFigure,
	readResidues,
} from "../../kernel-lib/figures/calibration-line";
import {
	type Arrow,
	calibrationLine,
	type Point,
} from "../../kernel-lib/figures/index";
import {
	bentLine,
	dyeLine,
	dyeResidues,
	dyeTrial,
} from "./calibration-fixtures";

const f = calibrationLine(dyeLine, dyeTrial);
const pointsOf = (name: string): readonly Point[] =>
	f.layers.flatMap((l) =>
		l.is === "points" && l.name === name ? l.points : [],
	);
const arrows = f.layers.flatMap((l): readonly Arrow[] =>
	l.is === "arrows" ? l.arrows : [],
);

test("every standard stands at its concentration and its reading", () => {
	expect(pointsOf("standard").map((p) => [p.x, p.y])).toEqual(
		dyeLine.points.map((p) => [p.concentration, p.signal]),
	);
});

test("flasks stand on the line, inside their intervals", () => {
	const [a, b] = dyeLine.coefficients;
	const flasks = pointsOf("flask");
	expect(flasks).toHaveLength(13);
	for (const p of flasks) {
		expect(p.y).toBeCloseTo(a + b * p.x, 12);
		expect(p.xInterval?.low).toBeLessThan(p.x);
		expect(p.xInterval?.high).toBeGreaterThan(p.x);
	}
});

test("the flask above the line is an arrow from the highest standard, not a point", () => {
	expect(arrows.map((r) => [r.label, r.x, r.towards])).toEqual([
		["V3", 4, "right"],
	]);
	expect(arrows[0].y).toBeGreaterThan(1.7);
	expect(arrows[0].hover).toContain("at least");
});

test("a reading that cannot be distinguished from a blank is an arrow to the left", () => {
	const [first] = dyeResidues;
	if (first.reading.is !== "on a line") throw new Error("not on a line");
	const low = {
		...first,
		reading: {
			...first.reading,
			on: {
				...first.reading.on,
				concentration: {
					is: "at most" as const,
					quantity: first.reading.on.concentration.quantity,
					because: "it cannot be distinguished from a blank",
				},
			},
		},
	};
	const g = lineFigure(dyeLine, readResidues(dyeLine, [low]), 0.95);
	expect(
		g.layers.flatMap((l) =>
			l.is === "arrows" ? l.arrows.map((r) => [r.x, r.towards]) : [],
		),
	).toEqual([[0, "left"]]);
});

test("the band holds the line and is narrowest near the middle of the standards", () => {
	const band = f.layers.flatMap((l) => (l.is === "band" ? l.points : []));
	const widths = band.map((p) => p.high - p.low);
	const narrowest = band[widths.indexOf(Math.min(...widths))].x;
	expect(narrowest).toBeCloseTo(1.75, 1);
	expect(Math.min(...widths)).toBeGreaterThan(0);
});

test("the alt text tells line, range and what is only a limit", () => {
	expect(f.alt).toContain("twelve readings of standards from 0 to 4 mg/L");
	expect(f.alt).toContain("13 flasks read on it");
	expect(f.alt).toContain("flask V3 (at least 4.0");
	expect(calibrationLine(bentLine).alt).toContain("c²");
});

test("flasks that lie too close for labels are named in a note, from left to right", () => {
	const flasks = f.layers.find((l) => l.is === "points" && l.name === "flask");
	if (flasks?.is !== "points") throw new Error("no flasks");
	const names = [...flasks.points]
		.sort((a, b) => a.x - b.x)
		.map((p) => /^flask ([^\n,]+)/.exec(p.hover)?.[1]);
	expect(names).toHaveLength(13);
	expect(f.notes.join("\n")).toContain(
		`From left to right: ${names.join(", ")}.`,
	);
});

test("band and bars have the confidence that is asked for, and say so", () => {
	const wide = calibrationLine(dyeLine, dyeTrial, { confidence: 0.99 });
	expect(JSON.stringify(wide)).not.toContain("95 %");
	expect(JSON.stringify(wide)).toContain("99 % of single readings");
	const barOf = (g: typeof f): number => {
		const flasks = g.layers.find(
			(l) => l.is === "points" && l.name === "flask",
		);
		if (flasks?.is !== "points") throw new Error("no flasks");
		const { x, xInterval } = flasks.points[0];
		return (xInterval?.high ?? x) - x;
	};
	expect(barOf(wide)).toBeGreaterThan(1.2 * barOf(f));
	expect(() => calibrationLine(dyeLine, dyeTrial, { confidence: 95 })).toThrow(
		/above 0.5 and below 1/,
	);
});

test("a line of another trial is refused", () => {
	expect(() => calibrationLine(bentLine, dyeTrial)).toThrow(
		/"bent" beside a trial that it is not from/,
	);
	const again = readTrial("data/demo-dye/dye.csv");
	expect(() => calibrationLine(dyeLine, again)).toThrow(/not from/);
});
