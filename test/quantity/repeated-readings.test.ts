import { describe, expect, test } from "vitest";
import { repeatedReadings } from "../../kernel-lib/quantity/index";

describe("repeated readings", () => {
	test("mean, s/sqrt(n), n - 1", () => {
		const q = repeatedReadings("volume", [24.1, 24.2, 24.15, 24.25], "mL");
		expect(q.value).toBeCloseTo(24.175, 12);
		// s = 0.0645497..., by hand: deviations -.075, .025, -.025, .075.
		expect(q.standardUncertainty).toBeCloseTo(Math.sqrt(0.0125 / 3) / 2, 12);
	});

	test("readings that agree are no better than their last digit", () => {
		const equal = repeatedReadings("volume", [24.15, 24.15], "mL");
		expect(equal.standardUncertainty).toBeCloseTo(0.01 / Math.sqrt(12), 12);
		const whole = repeatedReadings("mass", [1200, 1200, 1200], "mg");
		expect(whole.standardUncertainty).toBeCloseTo(1 / Math.sqrt(12), 12);
		const small = repeatedReadings("mass", [1.5e-7, 1.5e-7], "g");
		expect(small.standardUncertainty).toBeCloseTo(1e-8 / Math.sqrt(12), 20);
	});

	test("the larger of scatter and last digit, on both sides", () => {
		// s/sqrt(2) of two readings a digit apart is half a digit, more than 0.29 of it
		const apart = repeatedReadings("volume", [24.1, 24.2], "mL");
		expect(apart.standardUncertainty).toBeCloseTo(0.05, 12);
		// five readings, one of them a digit off: s/sqrt(5) is 0.2 of a digit
		const close = repeatedReadings("volume", [3, 3, 3, 3, 4], "mL");
		expect(close.standardUncertainty).toBeCloseTo(1 / Math.sqrt(12), 12);
	});

	test("one reading has no scatter", () => {
		expect(() => repeatedReadings("volume", [24.1], "mL")).toThrow(
			/at least two readings/,
		);
	});
});
