/** A difference over all slopes that are allowed for, by hand. */
import { describe, expect, test } from "vitest";
import { carriableOf } from "../../kernel-lib/compare/carriable";
import { atMiddle, carriedTo } from "../../kernel-lib/compare/carry";
import {
	differenceOn,
	type PairDifference,
} from "../../kernel-lib/compare/differences";
import {
	type Carrier,
	groundOf,
	nearWithin,
	overSlopes,
	usedBy,
} from "../../kernel-lib/compare/over-slopes";
import type { Slope } from "../../kernel-lib/compare/slope";
import { unitModelOf } from "../../kernel-lib/compare/unit-model";
import { type FlaskFixture, flasks, group } from "./fixtures";

const pair = { treatment: "steam", control: "water" };
const limits = { criticalValue: 2, confidence: 0.95 };
const range = (low: number, high: number): Slope => ({
	is: "range",
	low,
	high,
});
const measured = (value: number, withinSoaks = true): Slope => ({
	is: "measured",
	value,
	standardUncertainty: 0,
	degreesOfFreedom: 5,
	response: new Float64Array(20),
	withinSoaks,
});

function over(
	fixtures: readonly FlaskFixture[],
	at: number,
	slopes: Readonly<Record<string, Slope>>,
	of = pair,
) {
	const carrier: Carrier = {
		carriable: carriableOf(flasks(fixtures), at),
		at,
		slopes: new Map(Object.entries(slopes)),
		used: new Map(),
		spread: "pooled",
	};
	const taken = atMiddle(carrier.slopes);
	const observations = carriedTo(carrier.carriable, at, taken);
	const unitModel = unitModelOf(observations.list);
	const ground = groundOf(carrier, observations, unitModel);
	const middle = differenceOn(ground, of, 0, limits);
	return {
		middle,
		...overSlopes(carrier, of, middle, taken, unitModel, limits),
	};
}
const estimateOf = (d: PairDifference): number =>
	d.is === "interval" ? d.estimate : Number.NaN;
const intervalOf = (d: PairDifference) => {
	if (d.is !== "interval") throw new Error(d.is);
	return d.interval;
};

/** Three soaks that hardly scatter: the interval is the estimate give or take a hundredth. */
const still = (
	treatment: string,
	control: string,
	mean: number,
	residue = 300,
) => group(treatment, control, [mean - 0.001, mean, mean + 0.001], { residue });
const both = { steam: range(0, 0.6), water: range(0, 0.6) };
/** The ends of the interval, to the scatter. */
const ends = (d: PairDifference) => {
	const { low, high } = intervalOf(d);
	return [low, high].map((end) => Math.round(10 * end) / 10);
};
const to1 = (x: number) => Math.round(10 * x) / 10;

describe("ends of the interval", () => {
	test("at the residue of the flasks no slope has a part", () => {
		const { middle, difference } = over(
			[...still("water", "", 100), ...still("steam", "water", 150)],
			300,
			both,
		);
		expect(difference).toEqual(middle);
	});

	test("within a tenth of what the flasks left both curves are equally steep", () => {
		const at = 300 * nearWithin;
		const { difference } = over(
			[...still("water", "", 100), ...still("steam", "water", 150)],
			at,
			both,
		);
		expect(ends(difference)).toEqual([50, to1(50 * 1.1 ** 0.6)]);
	});

	test("beyond that each has a slope of its own, for curves may cross", () => {
		const { difference } = over(
			[...still("water", "", 100), ...still("steam", "water", 150)],
			600,
			both,
		);
		const near = nearWithin ** 0.6;
		const beyond = (2 / nearWithin) ** 0.6;
		// Steam flat and water steep beyond, flat up to there; and the mirror, steep all the way
		expect(ends(difference)).toEqual([
			to1(150 - 100 * beyond),
			to1(near * (150 * beyond - 100)),
		]);
		expect(estimateOf(difference)).toBeCloseTo(50 * 2 ** 0.3, 1);
	});

	test("below the residues likewise", () => {
		const { difference } = over(
			[...still("water", "", 100), ...still("steam", "water", 150)],
			150,
			both,
		);
		const near = nearWithin ** -0.6;
		const beyond = (nearWithin / 2) ** 0.6;
		expect(ends(difference)).toEqual([
			to1(near * (150 * beyond - 100)),
			to1(150 - 100 * beyond),
		]);
	});

	test("between the residues of the two sides each is carried along the same slope", () => {
		const { difference } = over(
			[...still("water", "", 100, 200), ...still("steam", "water", 150, 600)],
			400,
			both,
		);
		const steep = 150 * (400 / 600) ** 0.6 - 100 * 2 ** 0.6;
		expect(ends(difference)).toEqual([to1(steep), 50]);
	});

	test("residues of a third treatment, and of bounds, are none of the pair's", () => {
		const { difference } = over(
			[
				...still("water", "", 100),
				...still("steam", "water", 150),
				...still("smoke", "water", 90, 900),
			],
			600,
			{ ...both, smoke: range(0, 0.6) },
		);
		const [low] = ends(difference);
		expect(low).toBeLessThan(10);
	});

	test("a measured slope is no range: only the other side's ends are tried", () => {
		const trial = [...still("water", "", 100), ...still("steam", "water", 150)];
		const one = over(trial, 600, {
			steam: measured(0.3),
			water: range(0, 0.6),
		});
		const steam = 150 * 2 ** 0.3;
		const near = nearWithin ** 0.6;
		expect(ends(one.difference)).toEqual([
			to1(steam - 100 * near * (2 / nearWithin) ** 0.6),
			to1(steam - 100),
		]);
		const none = over(trial, 600, {
			steam: measured(0.3),
			water: measured(0.3),
		});
		expect(none.difference).toEqual(none.middle);
	});

	test("one-sided limits reach as far as the interval does", () => {
		const { difference } = over(
			[...still("water", "", 100), ...still("steam", "water", 150)],
			330,
			both,
		);
		if (difference.is !== "interval") throw new Error(difference.is);
		expect(to1(difference.oneSided.low)).toBe(50);
		expect(to1(difference.oneSided.high)).toBe(to1(50 * 1.1 ** 0.6));
	});

	test("of a bound both intervals hold for every slope", () => {
		const { difference, middle, statistic } = over(
			[
				...still("water", "", 100),
				...still("steam", "water", 150),
				{
					flask: "dry",
					treatment: "steam",
					soak: "dry",
					uptake: 400,
					residue: 600,
					is: "at least",
				},
			],
			600,
			both,
		);
		if (difference.is !== "one-sided" || middle.is !== "one-sided")
			throw new Error(difference.is);
		for (const name of ["without", "atLimit"] as const) {
			expect(difference[name].low).toBeLessThan(middle[name].low - 1);
			expect(difference[name].high).toBeGreaterThan(middle[name].high + 1);
		}
		expect(statistic).toBe(0);
		// Without the flask it is the difference of the others, whose edge is theirs.
		const beyond = (2 / nearWithin) ** 0.6;
		expect(to1(difference.without.low)).toBe(to1(150 - 100 * beyond));
	});

	test("of bounds alone no edge is to be had, and the scatter is that of others", () => {
		const { difference } = over(
			[
				...group("water", "", [100, 101], { is: "at most", residue: 300 }),
				...group("steam", "water", [150, 151], {
					is: "at least",
					residue: 300,
				}),
				...group("smoke", "water", [90, 92, 94], { residue: 500 }),
			],
			600,
			{ ...both, smoke: range(0, 0.6) },
		);
		if (difference.is !== "one-sided") throw new Error(difference.is);
		const { low, high } = difference.atLimit;
		expect(low).toBeLessThan(high);
		// At most holds below its residue: beyond, water goes up along the steepest slope that is allowed for.
		expect((low + high) / 2).toBeCloseTo(150.5 - 100.5 * 2 ** 0.6, 6);
	});

	test("missing at one slope that is allowed for is missing", () => {
		// Along a flat curve these agree to the last digit, and nothing is left to judge by.
		const agreeing = (treatment: string, control: string, uptake: number) =>
			group(treatment, control, [uptake, uptake, uptake]).map((f, i) => ({
				...f,
				residue: 500 + 50 * i,
			}));
		const { middle, difference } = over(
			[...agreeing("water", "", 100), ...agreeing("steam", "water", 150)],
			600,
			both,
		);
		expect(middle.is).toBe("interval");
		expect(difference).toEqual({ is: "missing", why: "no spread" });
	});

	test("a difference that is missing stays so", () => {
		expect(over(still("water", "", 100), 600, both)).toMatchObject({
			difference: { is: "missing", why: "no treated flask" },
			statistic: 0,
		});
	});
});

describe("the statistic", () => {
	const scattering = (treatment: string, control: string, mean: number) =>
		group(treatment, control, [mean - 2, mean, mean + 2]);
	const statistic = (steam: number, at: number, slopes = both) => {
		const found = over(
			[...scattering("water", "", 100), ...scattering("steam", "water", steam)],
			at,
			slopes,
		);
		if (found.middle.is !== "interval") throw new Error(found.middle.is);
		return {
			...found,
			own: found.middle.estimate / Math.sqrt(found.middle.errors.variance),
		};
	};
	test("is that of the middle where no slope has a part: by hand 30 over 2 sqrt(2/3)", () => {
		const { statistic: found, own } = statistic(130, 300);
		expect(found).toBeCloseTo(30 / (2 * Math.sqrt(2 / 3)), 9);
		expect(found).toBe(own);
		expect(statistic(70, 300).statistic).toBeCloseTo(
			-30 / (2 * Math.sqrt(2 / 3)),
			9,
		);
	});
	test("else the smallest of its sign", () => {
		const higher = statistic(200, 600);
		expect(higher.statistic).toBeGreaterThan(0);
		expect(higher.statistic).toBeLessThan(higher.own);
		const lower = statistic(50, 600);
		expect(lower.statistic).toBeLessThan(0);
		expect(lower.statistic).toBeGreaterThan(lower.own);
	});
	test("0 where the sign hangs on the slope", () => {
		expect(statistic(110, 600).own).toBeGreaterThan(0);
		expect(statistic(110, 600).statistic).toBe(0);
		expect(statistic(100, 300).statistic).toBeCloseTo(0, 9);
	});
});

describe("degrees of freedom that a slope has used up", () => {
	const used = (slope: Slope, level: "soak" | "flask") =>
		usedBy(new Map([["steam", slope]]), level).get("steam");
	test("one, where it was measured on differences between units", () => {
		expect(used(measured(0.3, false), "soak")).toBe(1);
		expect(used(measured(0.3, false), "flask")).toBe(1);
		expect(used(measured(0.3, true), "flask")).toBe(1);
		expect(used(measured(0.3, true), "soak")).toBe(0);
		expect(used(range(0, 0.6), "flask")).toBe(0);
	});
});
