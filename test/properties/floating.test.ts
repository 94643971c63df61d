import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as properties from "../../kernel-lib/properties/index";
import { input, normal } from "../../kernel-lib/quantity/index";
import { known, percent } from "./made";

function split(
	density: number,
	floated: number,
	sunk: number,
): properties.FloatSinkSplit {
	return {
		liquid: `brine ${density}`,
		liquidDensity: known("density", density, "g/mL"),
		floated: known("mass", floated, "g"),
		sunk: known("mass", sunk, "g"),
	};
}

describe("float and sink", () => {
	test("one liquid shuts the grains off on one side each", () => {
		const windows = properties.densityWindows([split(1.1, 2, 8)]);
		expect(
			windows.map((w) => [w.share.in("%"), w.above.is, w.below.is]),
		).toEqual([
			[20, "not known", "limit"],
			[80, "limit", "not known"],
		]);
	});

	test("two liquids make a window between them, in whatever order they come", () => {
		const windows = properties.densityWindows([
			split(1.3, 7, 3),
			split(1.1, 2, 8),
		]);
		expect(windows.map((w) => w.share.in("%"))).toEqual([
			20,
			expect.closeTo(50, 9),
			30,
		]);
		const [, middle] = windows;
		expect(middle.above.is === "limit" && middle.above.density.value).toBe(1.1);
		expect(middle.below.is === "limit" && middle.below.density.value).toBe(1.3);
		const table = properties.densityWindowTable("shell char", windows);
		expect(table.rows.map((r) => [r[2], r[3]])).toEqual([
			["", "1.1"],
			["1.1", "1.3"],
			["1.3", ""],
		]);
	});

	test("the parts add up to the whole", () => {
		fc.assert(
			fc.property(
				fc
					.array(fc.double({ min: 0, max: 1, noNaN: true }), {
						minLength: 1,
						maxLength: 5,
					})
					.map((shares) => shares.sort((a, b) => a - b)),
				(shares) => {
					const windows = properties.densityWindows(
						shares.map((f, i) => split(1 + i / 10, 10 * f, 10 * (1 - f))),
					);
					expect(
						windows.reduce((sum, w) => sum + w.share.in("1"), 0),
					).toBeCloseTo(1, 12);
				},
			),
		);
	});

	test("less floating in the denser liquid, and a split without mass, are refused", () => {
		expect(() =>
			properties.densityWindows([split(1.1, 5, 5), split(1.3, 2, 8)]),
		).toThrow(/no less floating in the denser liquid/);
		expect(() => properties.floatedShare(split(1.1, 0, 0))).toThrow(
			/0 g floated and sunk together/,
		);
		expect(() => properties.densityWindows([])).toThrow(/at least one split/);
	});
});

describe("floating grains that were left out", () => {
	const uptake = (value: number) =>
		input("uptake", value, "mg/g", normal(2), { symbol: "q", meaning: "" });
	const treated = { uptake: uptake(300), floated: percent(30) };
	const control = { uptake: uptake(280), floated: percent(5) };

	test("the whole char takes up q (1 + F (factor - 1))", () => {
		expect(properties.wholeCharUptake(treated, 0.5).in("mg/g")).toBeCloseTo(
			300 * (0.7 + 0.3 * 0.5),
			9,
		);
		expect(properties.wholeCharUptake(treated, 1).in("mg/g")).toBeCloseTo(
			300,
			9,
		);
	});

	test("how far the difference moves, and where it would vanish", () => {
		const bias = properties.floatingBias(treated, control, [0.5, 2]);
		expect(bias.difference.in("mg/g")).toBeCloseTo(20, 9);
		const [half, twice] = bias.ifFloatingDiffer;
		// 300 × 0.85 - 280 × 0.975 = 255 - 273
		expect(half.difference.in("mg/g")).toBeCloseTo(-18, 9);
		expect(half.shift.in("mg/g")).toBeCloseTo(-38, 9);
		// 300 × 1.3 - 280 × 1.05 = 390 - 294
		expect(twice.difference.in("mg/g")).toBeCloseTo(96, 9);
		if (bias.alikeAt.is !== "factor") throw new Error("no factor");
		const [t, c] = [treated, control].map((x) =>
			properties
				.wholeCharUptake(
					x,
					bias.alikeAt.is === "factor" ? bias.alikeAt.factor : 0,
				)
				.in("mg/g"),
		);
		expect(t).toBeCloseTo(c, 9);
		expect(bias.sentence).toContain("30.0 % of the treated char and 5.0 %");
		expect(bias.sentence).toContain("changes its sign");
	});

	test("where nothing floated, nothing moves", () => {
		const none = percent(0);
		const bias = properties.floatingBias(
			{ ...treated, floated: none },
			{ ...control, floated: none },
		);
		for (const r of bias.ifFloatingDiffer)
			expect(r.shift.in("mg/g")).toBeCloseTo(0, 9);
		expect(bias.alikeAt.is).toBe("not known");
		expect(bias.sentence).toContain("keeps its sign");
		expect(properties.floatingBiasTable(bias).rows).toHaveLength(2);
	});

	test("factors and shares that cannot be are refused", () => {
		expect(() => properties.wholeCharUptake(treated, -1)).toThrow(/0 or more/);
		expect(() =>
			properties.wholeCharUptake({ ...treated, floated: percent(130) }, 1),
		).toThrow(/between 0 and 100 %/);
	});
});
