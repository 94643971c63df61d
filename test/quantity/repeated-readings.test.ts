import { describe, expect, test } from "vitest";
import { repeatedReadings } from "../../kernel-lib/quantity/index";

describe("repeated readings", () => {
	test("mean, s/sqrt(n), n - 1", () => {
		const q = repeatedReadings("volume", [24.1, 24.2, 24.15, 24.25], "mL");
		expect(q.value).toBeCloseTo(24.175, 12);
		// s = 0.0645497..., by hand: deviations -.075, .025, -.025, .075.
		expect(q.standardUncertainty).toBeCloseTo(Math.sqrt(0.0125 / 3) / 2, 12);
	});

	test("one reading has no scatter", () => {
		expect(() => repeatedReadings("volume", [24.1], "mL")).toThrow(
			/at least two readings/,
		);
	});
});
