import { describe, expect, test } from "vitest";
import {
	certificate,
	halfDivision,
	normal,
	ProblemError,
	rectangular,
	triangular,
} from "../../kernel-lib/quantity/index";

describe("evidence", () => {
	test("divisors: JCGM 100:2008, 4.3.7 and 4.3.9", () => {
		expect(rectangular(1).standardUncertainty).toBeCloseTo(
			1 / Math.sqrt(3),
			15,
		);
		expect(triangular(1).standardUncertainty).toBeCloseTo(1 / Math.sqrt(6), 15);
		expect(halfDivision(0.1).standardUncertainty).toBeCloseTo(
			0.05 / Math.sqrt(3),
			15,
		);
		expect(certificate(0.06, 3).standardUncertainty).toBeCloseTo(0.02, 15);
	});

	test("nonsense is refused", () => {
		expect(() => rectangular(-1)).toThrow(ProblemError);
		expect(() => certificate(1, 0)).toThrow(/coverage factor/);
		expect(() => normal(Number.NaN)).toThrow(ProblemError);
	});
});
