import { describe, expect, test } from "vitest";
import {
	correlation,
	effectiveDegreesOfFreedom,
	exact,
	furtherApart,
	input,
	meanOfRepeats,
	minus,
	normal,
	plus,
	type Quantity,
} from "../../kernel-lib/quantity";

/** A titre of its own cell with a reading error. */
const titre = (mL: number, row: number, u = 0.03): Quantity<"volume"> =>
	input("volume", mL, "mL", u === 0 ? exact : normal(u), {
		symbol: "V",
		source: { is: "cell", hash: "h", sheet: "s", row, column: "V", file: "f" },
		scope: "reading",
	});

const mean = (...titres: readonly number[]): Quantity<"volume"> =>
	meanOfRepeats(
		titres.map((t, i) => titre(t, i)),
		"titres",
	);

describe("the mean of repeats carries the larger of reading error and scatter", () => {
	test("7.00 and 9.00 mL are not 8.00 and 8.00 mL", () => {
		expect(mean(8, 8).standardUncertainty).toBeCloseTo(0.03 / Math.SQRT2, 12);
		// s = 1.414 mL, of the mean 1 mL, one degree of freedom
		const wide = mean(7, 9);
		expect(wide.in("mL")).toBe(8);
		expect(wide.standardUncertainty).toBeCloseTo(1, 12);
		expect(effectiveDegreesOfFreedom(wide)).toBeCloseTo(1, 2);
	});

	// reading error of the mean of two: 0.0212 mL; scatter: half the difference
	test.each([
		[0.0424, 0.03 / Math.SQRT2],
		[0.0426, 0.0213],
	])("two that are %s mL apart", (apart, u) => {
		expect(mean(8, 8 + apart).standardUncertainty).toBeCloseTo(u, 10);
	});

	test("the degrees of freedom grow with the number and with the share of the reading error", () => {
		expect(effectiveDegreesOfFreedom(mean(7, 8, 9))).toBeCloseTo(2, 2);
		expect(effectiveDegreesOfFreedom(mean(8, 8.043))).toBeGreaterThan(100);
		expect(effectiveDegreesOfFreedom(mean(8, 8.01))).toBe(
			Number.POSITIVE_INFINITY,
		);
	});

	test("one reading has no scatter", () => {
		const one = titre(8, 1);
		expect(meanOfRepeats([one], "titres")).toBe(one);
	});

	test("what the repeats share is not counted as if it scattered, and stays in the mean once", () => {
		const burette = input("volume", 0, "mL", normal(0.5), {
			symbol: "b",
			scope: "reading",
		});
		const repeats = [7.98, 8.02].map((t, i) => plus(titre(t, i), burette));
		expect(meanOfRepeats(repeats, "titres").standardUncertainty).toBeCloseTo(
			Math.hypot(0.5, 0.03 / Math.SQRT2),
			12,
		);
	});

	test("everything that a mean corrects shares its scatter", () => {
		const blank = mean(0, 0.6);
		const [a, b] = [5, 7].map((t, i) => minus(titre(t, 10 + i), blank));
		// 0.3 mL of the blank in both, 0.03 mL of each titre
		expect(correlation(a, b)).toBeCloseTo(0.09 / (0.09 + 0.0009), 10);
		const again = minus(titre(9, 20), mean(0, 0.6));
		expect(correlation(a, again)).toBeCloseTo(0.09 / (0.09 + 0.0009), 10);
	});

	test("two sets with equal numbers do not share their scatter", () => {
		const other = meanOfRepeats([titre(0, 30), titre(0.6, 31)], "titres");
		expect(correlation(mean(0, 0.6), other)).toBe(0);
	});
});

describe("further apart than reading explains", () => {
	const apart = (...titres: readonly number[]): string =>
		furtherApart(
			titres.map((t, i) => titre(t, i, 0.1)),
			"Titres",
			"mL",
		);

	test.each([
		[[8, 8.279], false],
		[[8, 8.281], true],
		[[8, 8.1, 8.329], false],
		[[8, 8.1, 8.331], true],
		[[8, 8, 8, 8.359], false],
		[[8, 8, 8, 8.361], true],
		[[...Array(9).fill(8), 8.449], false],
		[[...Array(9).fill(8), 8.451], true],
		[[...Array(10).fill(8), 8.499], false],
		[[...Array(10).fill(8), 8.501], true],
	])("%j: %s", (titres, expected) => {
		expect(apart(...titres) !== "").toBe(expected);
	});

	test("is told with range and limit", () => {
		expect(apart(7, 9)).toBe(
			"Titres lie from 7 to 9 mL, further apart than reading them explains (0.28 mL); the scatter is carried. Look for its reason.",
		);
	});

	test("cannot be said of one reading, or without a stated error", () => {
		expect(apart(7)).toBe("");
		expect(furtherApart([titre(7, 1, 0), titre(9, 2, 0)], "Titres", "mL")).toBe(
			"",
		);
	});
});
