/** The two limits of what days may do to curves: just above and just below each. */
import { describe, expect, test } from "vitest";
import { degreesLeft, divisorFor } from "../../kernel-lib/compare/day-effects";

describe("what uptakes of a day are divided by", () => {
	test("the factor down to 0.2, and not less", () => {
		expect(divisorFor(0.21)).toBe(0.21);
		expect(divisorFor(0.2)).toBe(0.2);
		expect(divisorFor(0.19)).toBe(0.2);
		expect(divisorFor(-3)).toBe(0.2);
	});
});

describe("degrees of freedom that days leave a curve", () => {
	test("those that they do not take, down to half of one, and not less", () => {
		expect(degreesLeft(2, 1.49)).toBeCloseTo(0.51, 12);
		expect(degreesLeft(2, 1.5)).toBe(0.5);
		expect(degreesLeft(2, 1.51)).toBe(0.5);
		expect(degreesLeft(0, 1)).toBe(0.5);
	});
	test("all of them where their scatter is known", () => {
		expect(degreesLeft(Number.POSITIVE_INFINITY, 1)).toBe(
			Number.POSITIVE_INFINITY,
		);
	});
});
