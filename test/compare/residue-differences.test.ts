/** Differences of uptakes read off curves, and how many flasks would tell, by hand. */
import { describe, expect, test } from "vitest";
import type { CurveEstimate } from "../../kernel-lib/compare/curve-estimate";
import {
	combinedDegrees,
	estimateVariance,
} from "../../kernel-lib/compare/curve-variance";
import type { Judgement } from "../../kernel-lib/compare/judgement";
import { safeCriticalValue } from "../../kernel-lib/compare/planning";
import {
	curveDifference,
	curveDifferences,
	differenceCovariance,
} from "../../kernel-lib/compare/residue-differences";
import { replicatesAtResidue } from "../../kernel-lib/compare/residue-planning";
import { noSpread } from "../../kernel-lib/compare/spread";
import { known, notKnown } from "../../kernel-lib/quantity";
import { studentTQuantile } from "../../kernel-lib/stats";

const estimate = (
	treatment: string,
	uptake: number,
	scatterVariance: number,
	shared: Readonly<Record<string, number>> = {},
	more: Partial<CurveEstimate> = {},
): CurveEstimate => ({
	treatment,
	fits: [],
	uptake,
	scatterVariance,
	degreesOfFreedom: 4,
	spread: "about its curve",
	soaks: 1,
	scatterFrom: "curve",
	shared: new Map(Object.entries(shared)),
	...more,
});
const water = estimate("water", 100, 9, { titrant: 3, blank: 2 });
const steam = estimate("steam", 150, 16, { titrant: 4, balance: 1 });
const smoke = estimate("smoke", 90, 25, { balance: 2 });
const difference = (treated: CurveEstimate, control: CurveEstimate = water) =>
	curveDifference(
		{ treatment: treated.treatment, control: control.treatment },
		treated,
		control,
		noSpread,
	);
const unlimited = Number.POSITIVE_INFINITY;

describe("an uptake on a curve", () => {
	test("scatter and shared errors together; the degrees of freedom are those of the scatter alone", () => {
		expect(estimateVariance(water)).toBe(9 + 9 + 4);
		expect(combinedDegrees(water)).toBeCloseTo(22 ** 2 / (81 / 4), 9);
		expect(combinedDegrees(estimate("water", 1, 0, { titrant: 1 }))).toBe(
			unlimited,
		);
		expect(combinedDegrees(estimate("water", 1, 0))).toBe(unlimited);
	});
});

describe("a difference of two", () => {
	test("a scatter that rounding left counts as none: beyond 1e8 degrees of freedom they are without limit", () => {
		const shared = { titrant: 1e-5, blank: 5e-6 };
		const control = estimate("water", 100, 4e-26);
		const [ash, lime] = [1, -0.05].map((times) =>
			difference(
				estimate("ash", 110, 4e-26, {
					titrant: times * shared.titrant,
					blank: times * shared.blank,
				}),
				control,
			),
		);
		expect(ash.degreesOfFreedom).toBe(unlimited);
		// One error moves both: their statistics are the same but for the sign.
		const { criticalValues } = curveDifferences([ash, lime], 0.95).joint;
		for (const c of criticalValues) expect(c).toBeCloseTo(1.959964, 5);
		// (2 s^2)^2 over 2 (s^2)^2/v is 2 v.
		const of = (degreesOfFreedom: number): number =>
			difference(
				estimate("ash", 1, 1, {}, { degreesOfFreedom }),
				estimate("water", 1, 1, {}, { degreesOfFreedom }),
			).degreesOfFreedom;
		expect(of(0.499e8)).toBeCloseTo(0.998e8, -3);
		expect(of(0.501e8)).toBe(unlimited);
	});

	test("what moves both alike cancels; an input of one alone counts with its sign", () => {
		const d = difference(steam);
		expect(d.estimate).toBe(50);
		expect([...d.sharedEffects].sort()).toEqual([
			["balance", 1],
			["blank", -2],
			["titrant", 1],
		]);
		expect(d).toMatchObject({
			scatterVariance: 25,
			sharedVariance: 6,
			variance: 31,
		});
		expect(d.degreesOfFreedom).toBeCloseTo(31 ** 2 / (256 / 4 + 81 / 4), 9);
	});
	test("without a scatter nothing limits the degrees of freedom", () => {
		const still = (t: string) => estimate(t, 1, 0, { titrant: 1 });
		expect(difference(still("steam"), still("water")).degreesOfFreedom).toBe(
			unlimited,
		);
	});
	test("soaks against a curve: each scatter with degrees of freedom of its own", () => {
		const soaks = { ...steam, spread: "between soaks" as const, soaks: 3 };
		expect(difference(soaks).degreesOfFreedom).toBeCloseTo(
			difference(steam).degreesOfFreedom,
			9,
		);
	});
	test("two with one control have its scatter in common, and inputs with their signs", () => {
		const [a, b] = [difference(steam), difference(smoke)];
		// titrant 1 and -3, blank -2 and -2, balance 1 and 2
		expect(differenceCovariance(a, b)).toBe(9 + (-3 + 4 + 2));
		expect(differenceCovariance(a, a)).toBe(a.variance);
		// Treated in the one and control in the other
		const chain = difference(smoke, steam);
		expect(differenceCovariance(a, chain)).toBe(
			-16 + (1 * -4 + -2 * 0 + 1 * 1),
		);
		expect(differenceCovariance(chain, a)).toBe(differenceCovariance(a, chain));
	});
	test("intervals hold for all together, one-sided limits each by itself", () => {
		const family = [difference(steam), difference(smoke)];
		const { intervals, oneSided, joint } = curveDifferences(family, 0.95);
		family.forEach((d, i) => {
			const half = joint.criticalValues[i] * Math.sqrt(d.variance);
			expect(intervals[i].low).toBeCloseTo(d.estimate - half, 9);
			expect(intervals[i].high).toBeCloseTo(d.estimate + half, 9);
			const one =
				studentTQuantile(0.95, d.degreesOfFreedom) * Math.sqrt(d.variance);
			expect(oneSided[i].low).toBeCloseTo(d.estimate - one, 9);
			expect(oneSided[i].high).toBeCloseTo(d.estimate + one, 9);
			expect(joint.criticalValues[i]).toBeGreaterThan(
				studentTQuantile(0.975, d.degreesOfFreedom),
			);
		});
	});
});

describe("how many times the flasks would tell", () => {
	const open = (more: Partial<Judgement> = {}): Judgement =>
		({
			word: "cannot tell",
			obstacles: [],
			difference: { is: "interval", index: 0 },
			margin: known(25),
			ground: { claim: "difference" },
			...more,
		}) as unknown as Judgement;
	/** Ten flasks on each curve. */
	const onTen = (e: CurveEstimate): CurveEstimate => ({
		...e,
		fits: [{ used: { length: 10 } }] as unknown as CurveEstimate["fits"],
	});
	const plan = (
		treated: CurveEstimate,
		control: CurveEstimate,
		scope: "treatment" | "these lots" = "treatment",
	) => ({
		differences: curveDifferences(
			[difference(onTen(treated), onTen(control))],
			0.95,
		),
		scope,
		confidence: 0.95,
	});
	const plain = (variance: number, more: Partial<CurveEstimate> = {}) =>
		plan(
			estimate("steam", 1, variance, {}, more),
			estimate("water", 1, variance, {}, more),
		);
	/** 80 % limit of a variance with four degrees of freedom: 4 over the chi-square of 0.2 (tables). */
	const upper = 4 / 1.648777;
	const width = (variance: number, times: number, degrees = 4) =>
		2 *
		safeCriticalValue(1, degrees * times, 0.95) *
		Math.sqrt((2 * variance * upper) / times);

	test("the fewest whose full width is within the margin, at the upper limit of the scatter", () => {
		const variance = 40;
		const r = replicatesAtResidue(open(), plain(variance));
		if (r.is !== "number" || r.from.is !== "scatter about isotherms")
			throw new Error(r.is);
		const { times } = r.from;
		expect(width(variance, times)).toBeLessThanOrEqual(25);
		expect(width(variance, times - 1)).toBeGreaterThan(25);
		expect(r).toMatchObject({ units: 10 * times, from: { of: "flasks" } });
	});
	test("the flasks of the curve that is known worse, and shared errors beside", () => {
		const apart = plan(
			estimate("steam", 1, 40, { calibration: 3 }, { degreesOfFreedom: 20 }),
			estimate("water", 1, 40),
		);
		// Chi-square of 0.2 with 20 degrees of freedom (tables): 14.578
		const reckoned = 40 * (20 / 14.578) + 40 * upper;
		const wide = (times: number) =>
			2 *
			safeCriticalValue(1, 4 * times, 0.95) *
			Math.sqrt(reckoned / times + 9);
		const r = replicatesAtResidue(open(), apart);
		if (r.is !== "number" || r.from.is !== "scatter about isotherms")
			throw new Error(r.is);
		const { times } = r.from;
		expect(wide(times)).toBeLessThanOrEqual(25);
		expect(wide(times - 1)).toBeGreaterThan(25);
	});
	test("beyond twenty times in steps of ten", () => {
		const r = replicatesAtResidue(open(), plain(1040));
		if (r.is !== "number" || r.from.is !== "scatter about isotherms")
			throw new Error(r.is);
		const { times } = r.from;
		expect(times % 10).toBe(0);
		expect(width(1040, times)).toBeLessThanOrEqual(25);
		expect(width(1040, times - 10)).toBeGreaterThan(25);
	});
	test("soaks where they are what counts; at least two of lots", () => {
		const soaks = replicatesAtResidue(
			open(),
			plain(0.01, {
				spread: "between soaks",
				soaks: 3,
				degreesOfFreedom: unlimited,
			}),
		);
		expect(soaks).toEqual({
			is: "number",
			units: 3,
			from: { is: "scatter about isotherms", of: "soaks", times: 1 },
		});
		const lots = plan(
			estimate("steam", 1, 0.01),
			estimate("water", 1, 0.01),
			"these lots",
		);
		expect(replicatesAtResidue(open(), lots)).toMatchObject({
			is: "at least",
			units: 2,
			from: { times: 1 },
		});
	});
	test("no number: said already, other obstacles, no margin, another claim", () => {
		const why = (more: Partial<Judgement>) => {
			const r = replicatesAtResidue(open(more), plain(40));
			return r.is === "not given" ? r.why.is : r.is;
		};
		expect(why({ word: "higher" })).toBe("enough");
		expect(why({ obstacles: [{}] as never })).toBe("other obstacle");
		expect(why({ difference: { is: "missing" } as never })).toBe(
			"other obstacle",
		);
		expect(why({ margin: notKnown("none was set") })).toBe("no margin");
		expect(
			why({ ground: { claim: "at least the margin more" } as never }),
		).toBe("claim");
	});
	test("errors of the curves that flasks do not shrink are named with their size; else it would take too many", () => {
		const shared = plan(
			estimate("steam", 1, 1, { calibration: 12 }),
			estimate("water", 1, 1),
		);
		expect(replicatesAtResidue(open(), shared)).toEqual({
			is: "not given",
			why: { is: "errors of the curves", effect: 12 },
		});
		expect(
			replicatesAtResidue(open({ margin: known(0.01) }), plain(40)),
		).toEqual({
			is: "not given",
			why: { is: "too many times the flasks", most: 1000 },
		});
	});
});
