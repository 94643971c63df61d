import { describe, expect, test } from "vitest";
import type { CurveEstimate } from "../../kernel-lib/compare/curve-estimate";
import { combinedDegrees } from "../../kernel-lib/compare/curve-variance";
import { curveDifference } from "../../kernel-lib/compare/residue-differences";
import {
	overSoaks,
	soakSpreadOf,
} from "../../kernel-lib/compare/soak-estimates";

const soak = (uptake: number, scatterVariance = 1): CurveEstimate => ({
	treatment: "",
	fits: [],
	uptake,
	scatterVariance,
	degreesOfFreedom: 4,
	spread: "about its curve",
	soaks: 1,
	scatterFrom: "curve",
	shared: new Map([["titrant", 2]]),
});
const soaks = (...uptakes: number[]) => uptakes.map((u) => soak(u));

/** Variances of the soaks 4 (two degrees of freedom) and 100 (two): pooled 52. */
const calm = soaks(298, 300, 302);
const wild = soaks(290, 300, 310);
const treatments = new Map([
	["water", calm],
	["steam", wild],
]);

describe("how far the curves of soaks lie apart", () => {
	test("each treatment by itself, drawn to the pooled one with a third of its weight", () => {
		const spread = soakSpreadOf(treatments, "moderated");
		expect(spread.deviation ** 2).toBeCloseTo(52, 10);
		expect(spread.degreesOfFreedom).toBe(4);
		// one prior degree of freedom beside two of its own
		expect(spread.groups.get("water")?.variance).toBeCloseTo(
			52 / 3 + (2 * 4) / 3,
			10,
		);
		expect(spread.groups.get("steam")?.variance).toBeCloseTo(
			52 / 3 + (2 * 100) / 3,
			10,
		);
	});

	test("pooled, where that is asked for", () => {
		const spread = soakSpreadOf(treatments, "pooled");
		for (const { variance } of spread.groups.values())
			expect(variance).toBeCloseTo(52, 10);
		const pair = { treatment: "steam", control: "water" };
		const [control, treated] = [...treatments].map(([t, s]) =>
			overSoaks(t, s, spread),
		);
		const d = curveDifference(pair, treated, control, spread);
		expect(d.scatterVariance).toBeCloseTo(52 / 3 + 52 / 3, 10);
		// The titrant moves both alike and has cancelled: Student's t with the pooled 4.
		expect(d.sharedVariance).toBe(0);
		expect(d.degreesOfFreedom).toBeCloseTo(4, 10);
	});

	test("never less than the scatter about the curves", () => {
		const alike = new Map([
			["water", soaks(300, 300)],
			["steam", soaks(300, 300)],
		]);
		const spread = soakSpreadOf(alike, "moderated");
		expect(spread.deviation).toBeCloseTo(1, 10);
		expect(spread.groups.get("water")?.variance).toBeCloseTo(1, 10);
	});

	test("of all their points, and of each treatment's own", () => {
		const spread = soakSpreadOf(
			new Map([
				["water", [soak(300, 1), soak(300, 3)]],
				["steam", [soak(400, 5), soak(400, 6), soak(400, 10)]],
			]),
			"moderated",
		);
		// (1 + 3)/2 and (5 + 6 + 10)/3; all five 25/5
		expect(spread.deviation ** 2).toBeCloseTo(5, 10);
		expect(spread.fromReadings).toBe(true);
		expect(spread.groups.get("water")?.ownVariance).toBeCloseTo(2, 10);
		expect(spread.groups.get("steam")?.ownVariance).toBeCloseTo(7, 10);
	});

	test("a single soak borrows the pooled one; without several soaks there is none", () => {
		const spread = soakSpreadOf(treatments, "moderated");
		const single = overSoaks("smoke", soaks(305), spread);
		expect(single.scatterVariance).toBeCloseTo(52, 10);
		const beside = soakSpreadOf(
			new Map([...treatments, ["smoke", soaks(305)]]),
			"moderated",
		);
		expect([...beside.groups.keys()]).toEqual(["water", "steam"]);
		expect(soakSpreadOf(new Map([["smoke", soaks(305)]]), "moderated")).toEqual(
			soakSpreadOf(new Map(), "pooled"),
		);
	});
});

describe("an uptake over soaks", () => {
	const spread = soakSpreadOf(treatments, "moderated");

	test("is their mean, with the errors that they share once", () => {
		const steam = overSoaks("steam", wild, spread);
		expect(steam.uptake).toBe(300);
		expect(steam.shared.get("titrant")).toBeCloseTo(2, 12);
		expect(steam.soaks).toBe(3);
		expect(combinedDegrees(steam)).toBeGreaterThan(steam.degreesOfFreedom);
	});

	test("an error that some of them have counts by their share, and the curves of all are kept", () => {
		const other = { ...soak(310), shared: new Map([["blank", 6]]) };
		const fit = {} as CurveEstimate["fits"][number];
		const both = overSoaks(
			"steam",
			[
				{ ...soak(300), fits: [fit] },
				{ ...other, fits: [fit, fit] },
			],
			spread,
		);
		expect([...both.shared]).toEqual([
			["titrant", 1],
			["blank", 3],
		]);
		expect(both).toMatchObject({
			treatment: "steam",
			fits: [fit, fit, fit],
			uptake: 305,
			spread: "between soaks",
			scatterFrom: "soaks",
			soaks: 2,
		});
		expect(both.scatterVariance).toBeCloseTo(84 / 2, 10);
	});

	test("without a spread no variance and no degrees of freedom, and no number that is none", () => {
		expect(
			overSoaks("smoke", soaks(305), soakSpreadOf(new Map(), "moderated")),
		).toMatchObject({ scatterVariance: 0, degreesOfFreedom: 0 });
	});

	test("has the degrees of freedom of all where one spread is taken, else nearly its own", () => {
		const pooled = soakSpreadOf(treatments, "pooled");
		expect(overSoaks("steam", wild, pooled).degreesOfFreedom).toBeCloseTo(
			4,
			10,
		);
		// Satterthwaite by hand: 84² over half of (4/6)² + (5/6 of 100)²
		expect(overSoaks("steam", wild, spread).degreesOfFreedom).toBeCloseTo(
			84 ** 2 / (((4 / 6) ** 2 + (500 / 6) ** 2) / 2),
			8,
		);
	});

	test("a difference of two that scatter unlike has degrees of freedom between those of the wilder one and all", () => {
		const [control, treated] = [...treatments].map(([t, s]) =>
			overSoaks(t, s, spread),
		);
		const d = curveDifference(
			{ treatment: "steam", control: "water" },
			treated,
			control,
			spread,
		);
		expect(d.scatterVariance).toBeCloseTo(
			(52 / 3 + 8 / 3 + 52 / 3 + 200 / 3) / 3,
			10,
		);
		expect(d.degreesOfFreedom).toBeGreaterThan(2);
		expect(d.degreesOfFreedom).toBeLessThan(4);
	});
});
