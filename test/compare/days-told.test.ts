/** What flasks and soaks tell of days, by hand. */
import { describe, expect, test } from "vitest";
import type { CurveOnDays } from "../../kernel-lib/compare/curve-days";
import type { CurveEstimate } from "../../kernel-lib/compare/curve-estimate";
import { share, toldBy } from "../../kernel-lib/compare/days-told";
import { noSpread, type Spread } from "../../kernel-lib/compare/spread";

const curve = (
	uptake: number,
	followed: number,
	information: number,
	towards: number,
): CurveOnDays => ({
	estimate: { uptake } as CurveEstimate,
	followed: Float64Array.of(followed),
	information: [Float64Array.of(information)],
	towards: Float64Array.of(towards),
	towardsOf: () => Float64Array.of(0),
});

describe("one number for two days", () => {
	test("that nothing tells is as uncertain as anything a day may do: 1", () => {
		const told = toldBy([["water", [curve(100, 50, 0, 0)]]], noSpread, 1);
		expect(told.inverse[0][0]).toBe(1);
		expect(told.numbers[0]).toBe(0);
	});

	test("from flasks about their curves: their information, and one beside it", () => {
		const own = [curve(100, 50, 300, 9), curve(90, 50, 600, 30)];
		const told = toldBy(
			own.map((c, i) => [String(i), [c]] as const),
			noSpread,
			1,
		);
		expect(told.inverse[0][0]).toBeCloseTo(1 / 901, 15);
		expect(told.numbers[0]).toBeCloseTo(39 / 901, 15);
		expect(share(own[0].information, told.inverse)).toBeCloseTo(300 / 901, 15);
	});

	test("from soaks of a treatment, by how they differ and by their spread", () => {
		const spread: Spread = {
			deviation: 2,
			degreesOfFreedom: 1,
			fromReadings: false,
			groups: new Map(),
		};
		// One soak on each day: uptakes 100 apart in what a day does to them, and 6 apart.
		const told = toldBy(
			[["water", [curve(103, 50, 0, 0), curve(97, -50, 0, 0)]]],
			spread,
			1,
		);
		// (50^2 + 50^2)/2^2 and (50 x 3 + 50 x 3)/2^2
		expect(told.between.get("water")?.[0][0]).toBe(1250);
		expect(told.numbers[0]).toBeCloseTo(75 / 1251, 15);
	});
});
