import { expect, test } from "vitest";
import {
	figureSvg,
	type Layer,
	particleSizeCurves,
} from "../../kernel-lib/figures/index";
import { fineSieving, sievings } from "./particle-size-fixtures";
import { readTexts } from "./svg-reading";

const f = particleSizeCurves(sievings);

function layersOf<Is extends Layer["is"]>(
	is: Is,
	layers: readonly Layer[] = f.layers,
): Extract<Layer, { is: Is }>[] {
	return layers.filter((l): l is Extract<Layer, { is: Is }> => l.is === is);
}

test("each sieve has its point at what passes it", () => {
	const [first] = layersOf("points");
	expect(first.points.map((p) => [p.x, Number(p.y.toFixed(6))])).toEqual([
		[2.36, 100],
		[1.7, 95.8],
		[1.18, 67.2],
		[0.85, 29.3],
		[0.6, 7],
		[0.425, 1.2],
	]);
});

test("the line goes through the points, so that d10 and d60 lie on it", () => {
	const [line] = layersOf("line");
	const [, sizes] = layersOf("points");
	for (const p of sizes.points) {
		const at = line.points.findIndex((q) => q.x >= p.x);
		const [a, b] = [line.points[at - 1], line.points[at]];
		const part = Math.log(p.x / a.x) / Math.log(b.x / a.x);
		expect(a.y + part * (b.y - a.y)).toBeCloseTo(p.y, 9);
		expect(p.xInterval?.low).toBeLessThan(p.x);
		expect(p.xInterval?.high).toBeGreaterThan(p.x);
	}
	expect(sizes.points.map((p) => p.y)).toEqual([10, 60]);
});

test("sievings of one char have one colour and one entry in the key, and another dash", () => {
	const [a, b, c] = layersOf("line");
	expect(a.ink).toBe(b.ink);
	expect(a.dash).not.toBe(b.dash);
	expect(c.ink).not.toBe(a.ink);
	expect(
		layersOf("points")
			.map((l) => l.name)
			.filter((n) => n !== ""),
	).toEqual(["shell char", "steamed"]);
});

test("sizes beyond the sieves are arrows", () => {
	const g = particleSizeCurves(fineSieving);
	expect(
		layersOf("arrows", g.layers).flatMap((l) =>
			l.arrows.map((x) => [x.x, x.y, x.towards, x.label]),
		),
	).toEqual([[0.85, 10, "left", "d10 at most"]]);
	expect(g.alt).toContain("d10 at most 0.85 mm");
});

test("the alt text says what is seen, and the lines are named at every width", () => {
	expect(f.alt).toContain("two chars in three sievings");
	expect(f.alt).toContain(
		'"shell char", determination S1: d10 0.629 mm, d60 1.109 mm.',
	);
	for (const width of [360, 720, 1100]) {
		const texts = readTexts(figureSvg(f, { width })).map((t) => t.text);
		expect(texts.join(" ")).toContain("10 % finer: d10");
		expect(texts.join(" ")).toContain("60 % finer: d60");
	}
});
