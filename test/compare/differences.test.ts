/** Differences of pairs with their intervals, by hand, and why a pair has none. */
import { describe, expect, test } from "vitest";
import {
	differenceOn,
	differencesOf,
	type PairDifference,
} from "../../kernel-lib/compare/differences";
import { observationsOf } from "../../kernel-lib/compare/observations";
import { spreadOf } from "../../kernel-lib/compare/spread";
import { unitModelOf } from "../../kernel-lib/compare/unit-model";
import { simultaneousCriticalValue } from "../../kernel-lib/stats";
import { type FlaskFixture, flasks, group } from "./fixtures";

const pair = { treatment: "steam", control: "water" };
const limits = { criticalValue: 3, confidence: 0.95 };

function groundOf(fixtures: readonly FlaskFixture[]) {
	const observations = observationsOf(flasks(fixtures));
	const unitModel = unitModelOf(observations.list);
	return {
		observations,
		unitModel,
		spread: spreadOf(unitModel.model, observations, "pooled"),
	};
}
const on = (fixtures: readonly FlaskFixture[], of = pair) =>
	differenceOn(groundOf(fixtures), of, 7, limits);
const whyOf = (d: PairDifference) => (d.is === "missing" ? d.why : d.is);

/** Three soaks of each with a standard deviation of 2: standard error 2 sqrt(2/3) with 4 degrees of freedom. */
const soaks = (
	treatment: string,
	mean: number,
	more: Partial<FlaskFixture> = {},
) =>
	group(
		treatment,
		treatment === "water" ? "" : "water",
		[mean - 2, mean, mean + 2],
		more,
	);
const standardError = 2 * Math.sqrt(2 / 3);
/** t of 0.95 with 4 degrees of freedom (tables). */
const t4 = 2.131847;

describe("an interval", () => {
	test("critical value times standard error, and one-sided limits by Student's t", () => {
		const d = on([...soaks("water", 100), ...soaks("steam", 130)]);
		if (d.is !== "interval") throw new Error(d.is);
		expect(d).toMatchObject({
			estimate: expect.closeTo(30, 10),
			interval: {
				low: expect.closeTo(30 - 3 * standardError, 8),
				high: expect.closeTo(30 + 3 * standardError, 8),
			},
			oneSided: {
				low: expect.closeTo(30 - t4 * standardError, 4),
				high: expect.closeTo(30 + t4 * standardError, 4),
			},
			index: 7,
		});
		expect(d.errors.degreesOfFreedom).toBeCloseTo(4, 8);
	});
});

describe("one end", () => {
	const bound = (more: Partial<FlaskFixture>): FlaskFixture => ({
		flask: "dry",
		treatment: "steam",
		control: "water",
		soak: "dry",
		uptake: 170,
		is: "at least",
		...more,
	});
	const oneSided = (fixtures: readonly FlaskFixture[]) => {
		const d = on(fixtures);
		if (d.is !== "one-sided") throw new Error(whyOf(d));
		return d;
	};
	test("without the flask, and with it at its limit; twice the uncertainty of the bound beside", () => {
		const d = oneSided([
			...soaks("water", 100),
			...soaks("steam", 130),
			bound({ reading: 4 }),
		]);
		expect(d).toMatchObject({ side: "at least", flasks: ["dry"], index: 7 });
		const half = 3 * standardError;
		expect(d.without).toEqual({
			low: expect.closeTo(30 - half, 8),
			high: expect.closeTo(30 + half, 8),
		});
		// A quarter of the mean of four stands on it: 140, and 4/4 of uncertainty
		expect(d.atLimit).toEqual({
			low: expect.closeTo(40 - half - 2, 8),
			high: expect.closeTo(40 + half + 2, 8),
		});
	});
	test("a control's bound likewise; one of a third treatment is none of the pair's", () => {
		const trial = [...soaks("water", 100), ...soaks("steam", 130)];
		const d = oneSided([
			...trial,
			bound({ treatment: "water", control: "", uptake: 60, is: "at most" }),
		]);
		expect(d.side).toBe("at least");
		expect((d.atLimit.low + d.atLimit.high) / 2).toBeCloseTo(40, 8);
		const third = on([
			...trial,
			...soaks("smoke", 90),
			bound({ treatment: "smoke" }),
		]);
		expect(whyOf(third)).toBe("interval");
	});
	test("a group of bounds alone stands at its limit both ways", () => {
		const d = oneSided([
			...soaks("water", 100),
			...group("smoke", "water", [90, 94]),
			bound({ uptake: 170 }),
			bound({ flask: "dry2", soak: "dry2", uptake: 150 }),
		]);
		for (const { low, high } of [d.without, d.atLimit])
			expect((low + high) / 2).toBeCloseTo(60, 8);
	});
	test("a bound on a day that no value stood on leaves no day in common", () => {
		const trial = [
			...soaks("water", 100, { day: "1" }),
			...soaks("steam", 130, { day: "1" }),
		];
		expect(whyOf(on([...trial, bound({ day: "2" })]))).toBe("no common day");
		expect(whyOf(on([...trial, bound({ day: "1" })]))).toBe("one-sided");
	});
});

describe("no difference", () => {
	test.each<[string, FlaskFixture[], typeof pair]>([
		[
			"no control",
			[...soaks("water", 100)],
			{ treatment: "water", control: "" },
		],
		["no treated flask", [...soaks("water", 100)], pair],
		["no control flask", [...soaks("steam", 100)], pair],
		[
			"no common day",
			[
				...soaks("water", 100, { day: "1" }),
				...soaks("steam", 130, { day: "2" }),
			],
			pair,
		],
		[
			"no spread",
			[
				...group("water", "", [100, 100]),
				...group("steam", "water", [130, 130]),
			],
			pair,
		],
		[
			"bounds on both sides",
			[
				...soaks("water", 100, { is: "at least" }),
				...soaks("steam", 130, { is: "at least" }),
			],
			pair,
		],
	])("%s", (why, fixtures, of) => {
		expect(on(fixtures, of)).toEqual({ is: "missing", why });
	});
});

describe("a family", () => {
	const ground = groundOf([
		...soaks("water", 100),
		...soaks("steam", 130),
		...soaks("smoke", 90),
	]);
	const smoke = { treatment: "smoke", control: "water" };
	const family = () =>
		differencesOf(
			[pair, { treatment: "air", control: "water" }, smoke],
			ground,
			0.95,
		);
	test("holds those that have a difference, each at its place, and says why others have none", () => {
		const found = family();
		expect(found.family.map((f) => f.pair.treatment)).toEqual([
			"steam",
			"smoke",
		]);
		const [steam, air, other] = ["steam", "air", "smoke"].map(
			(t) => found.byTreatment.get(t) as PairDifference,
		);
		expect(air).toEqual({ is: "missing", why: "no treated flask" });
		expect([steam, other]).toMatchObject([
			{ estimate: expect.closeTo(30, 8), index: 0 },
			{ estimate: expect.closeTo(-10, 8), index: 1 },
		]);
	});
	test("holds together: wider than each alone, not as wide as two that have nothing in common", () => {
		const found = family();
		// Student's t of 0.975 and, by Bonferroni, of 0.9875, with 6 degrees of freedom (tables)
		for (const value of found.joint.criticalValues) {
			expect(value).toBeGreaterThan(2.4469);
			expect(value).toBeLessThan(2.9687);
			// Groups of one size with one control: half of each variance is the control's.
			expect(value).toBeCloseTo(
				simultaneousCriticalValue(
					[
						[1, 0.5],
						[0.5, 1],
					],
					6,
					0.05,
					"two-sided",
				),
				5,
			);
		}
		const steam = found.byTreatment.get("steam") as PairDifference;
		if (steam.is !== "interval") throw new Error(steam.is);
		expect(steam.interval.high - 30).toBeCloseTo(
			found.joint.criticalValues[0] * standardError,
			6,
		);
	});
	test("of one pair it is Student's t, here of 6 degrees of freedom (tables)", () => {
		const [own] = differencesOf([pair], ground, 0.95).joint.criticalValues;
		expect(own).toBeCloseTo(2.446912, 4);
	});
});
