/** What holds for all differences of a comparison together. */
import { describe, expect, test } from "vitest";
import { finite } from "../../kernel-lib/compare/finite";
import {
	adjustedPs,
	jointOf,
	simultaneousOf,
} from "../../kernel-lib/compare/joint";
import {
	normalQuantile,
	simultaneousCriticalValue,
	studentTQuantile,
} from "../../kernel-lib/stats";

const known = Number.POSITIVE_INFINITY;

describe("critical values", () => {
	test("by the correlation, whatever the variances: 2 over the root of 4 times 9 is a third", () => {
		const third = [
			[1, 1 / 3],
			[1 / 3, 1],
		];
		const covariance = [
			[4, 2],
			[2, 9],
		];
		const { criticalValues } = jointOf(covariance, [8, 8], 0.95);
		const expected = simultaneousCriticalValue(third, 8, 0.05, "two-sided");
		expect(criticalValues).toEqual([
			expect.closeTo(expected, 6),
			expect.closeTo(expected, 6),
		]);
	});
	test("two that are one, to rounding, are judged as one; with the opposite sign too", () => {
		for (const sign of [1, -1]) {
			const c = sign * (1 + 1e-12);
			const same = [
				[1, c],
				[c, 1],
			];
			for (const value of jointOf(same, [known, known], 0.95).criticalValues)
				expect(value).toBeCloseTo(normalQuantile(0.975), 3);
		}
	});
	test("each with its own degrees of freedom", () => {
		const apart = [
			[1, 0],
			[0, 1],
		];
		const [few, many] = jointOf(apart, [3, 30], 0.95).criticalValues;
		expect(few).toBeGreaterThan(many);
		// (2 Phi(z) - 1)^2 = 0.95, with no scatter that was estimated
		expect(jointOf(apart, [known, known], 0.95).criticalValues[0]).toBeCloseTo(
			normalQuantile((1 + Math.sqrt(0.95)) / 2),
			5,
		);
	});
});

describe("adjusted p", () => {
	const one = jointOf([[4]], [5], 0.95);
	test("of a single difference it is Student's, whatever its sign", () => {
		const t = studentTQuantile(0.99, 5);
		expect(adjustedPs(one, [t])[0]).toBeCloseTo(0.02, 5);
		expect(adjustedPs(one, [-t])[0]).toBeCloseTo(0.02, 5);
		expect(adjustedPs(one, [0])[0]).toBeCloseTo(1, 6);
	});
	test("of what lies far beyond anything is next to nothing, on either side", () => {
		for (const t of [1e9, -1e9, known, -known]) {
			const [p] = adjustedPs(one, [t]);
			expect(p).toBeGreaterThanOrEqual(0);
			expect(p).toBeLessThan(1e-4);
		}
	});
});

test("what is reported: the pairs, and 0 for degrees of freedom without limit", () => {
	expect([finite(known), finite(4.5)]).toEqual([0, 4.5]);
	const joint = jointOf([[1]], [known], 0.95);
	const pair = { treatment: "steam", control: "water" };
	expect(simultaneousOf({ joint, family: [{ pair }] })).toMatchObject({
		pairs: [pair],
		degreesOfFreedom: [0],
		criticalValues: joint.criticalValues,
	});
});
