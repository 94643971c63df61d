import { describe, expect, test } from "vitest";
import { exact, input, normal, working } from "../../../kernel-lib/quantity";
import {
	type CalibrationLine,
	calibrate,
	detectionLimits,
	lineFromAbsorptivity,
	readBackwards,
	readOnLine,
} from "../../../kernel-lib/residue/colorimetry";
import { signalAt } from "../../../kernel-lib/residue/colorimetry/line";
import {
	concentrationOf,
	meanSignal,
} from "../../../kernel-lib/residue/colorimetry/read-on-line";
import { s, spread, standardsOn, straight } from "./lines";

const absorbance = (value: number) =>
	input("absorbance", value, "absorbance", exact, {
		component: String(value),
	});
const read = (line: CalibrationLine, ...signals: readonly number[]) =>
	readOnLine(line, signals.map(absorbance), "a liquid");
const milligrams = (line: CalibrationLine, ...signals: readonly number[]) => {
	const { concentration } = read(line, ...signals);
	return [concentration.is, concentration.quantity.value];
};

describe("the mean of the readings of one liquid", () => {
	test("has the scatter of the line over the root of their number", () => {
		const mean = meanSignal(
			straight(),
			[1.495, 1.505].map(absorbance),
			"a liquid",
		);
		expect(mean.value).toBeCloseTo(1.5, 12);
		expect(mean.standardUncertainty).toBeCloseTo(s / Math.SQRT2, 12);
		expect(mean.name.meaning).toBe("reading of a liquid");
	});

	test("has the scatter of the readings themselves where that is larger", () => {
		const errorOf = (apart: number) =>
			meanSignal(
				straight(),
				[1 - apart / 2, 1 + apart / 2].map(absorbance),
				"a liquid",
			).standardUncertainty;
		// the standard deviation of two readings is their distance over the root of two
		const even = s * Math.SQRT2;
		expect(errorOf(even * 0.99)).toBeCloseTo(s / Math.SQRT2, 12);
		expect(errorOf(even * 1.01)).toBeCloseTo((even * 1.01) / 2, 12);
	});

	test("tells readings that lie further apart than 2.8 times the scatter about the line", () => {
		const apart = (share: number) =>
			read(straight(), 1 - (share * s) / 2, 1 + (share * s) / 2).apart;
		expect(apart(2.79)).toBe("");
		expect(apart(2.81)).toMatch(
			/^Its readings \(absorbance, corrected\) lie from .+ to .+, further apart than reading them explains \(.+\); the scatter is carried/,
		);
		expect(read(straight(), 1).apart).toBe("");
	});

	test("another liquid has another error, the same liquid the same", () => {
		const line = straight();
		const of = (liquid: string) => meanSignal(line, [absorbance(1)], liquid);
		const apart = concentrationOf(line, of("b"));
		expect(apart.value).toBeCloseTo(0.5, 12);
		expect(read(line, 1, 1.1).readings).toBe(2);
	});
});

describe("a concentration with its errors", () => {
	test("on a straight line as the formula has it, duplicates averaged", () => {
		const { concentration } = read(straight(), 3.495, 3.505);
		expect(concentration.is).toBe("value");
		expect(concentration.quantity.value).toBeCloseTo(3, 10);
		expect(concentration.quantity.standardUncertainty).toBeCloseTo(
			s * Math.sqrt(spread(3, 2)),
			10,
		);
	});

	test("on a bent line as the formula has it", () => {
		const bent = calibrate(
			standardsOn((c) => 0.5 + c - 0.05 * c * c),
			{
				model: "quadratic",
			},
		);
		for (const c of [0.7, 2, 3.6]) {
			const { quantity } = read(bent, signalAt(bent, c)).concentration;
			const formula = readBackwards(bent, signalAt(bent, c));
			expect(quantity.value).toBeCloseTo(c, 9);
			expect(quantity.standardUncertainty).toBeCloseTo(
				formula.standardUncertainty,
				8,
			);
		}
	});

	test("what the standards were really worth scales values and bounds", () => {
		const strength = (value: number, u: number) =>
			input("ratio", value, "1", u === 0 ? exact : normal(u), {});
		const strong = straight(0.5, 1, { strength: strength(1.1, 0) });
		expect(milligrams(strong, 3.5)).toEqual(["value", expect.closeTo(3.3, 10)]);
		expect(milligrams(strong, 9)).toEqual([
			"at least",
			expect.closeTo(4.4, 10),
		]);
		const unsure = straight(0.5, 1, { strength: strength(1, 0.05) });
		const { quantity } = read(unsure, 3.5).concentration;
		expect(quantity.standardUncertainty).toBeCloseTo(
			Math.hypot(s * Math.sqrt(spread(3)), 3 * 0.05),
			9,
		);
		expect(
			read(unsure, 9).concentration.quantity.standardUncertainty,
		).toBeCloseTo(4 * 0.05, 12);
	});
});

describe("the working of a reading", () => {
	const text = (line: CalibrationLine, signal: number): string =>
		working(read(line, signal).concentration.quantity).text;

	test("of a straight line has neither bend nor strength of the standards", () => {
		const shown = text(straight(), 3.5);
		expect(shown).toMatch(/= 1 mg\/L × \(S(_\d)? − a(_\d)?\) \/ b(_\d)?\n/);
		expect(shown).toContain("reading error of a liquid");
		const strong = straight(0.5, 1, {
			strength: input("ratio", 1.1, "1", exact, { symbol: "f" }),
		});
		expect(text(strong, 3.5)).toMatch(/× f\b/);
	});

	test("of a bound names what it is the concentration of", () => {
		expect(text(straight(), 9)).toContain("the highest standard");
		expect(text(straight(), 0.5)).toContain("the detection limit (DIN 32645)");
		const high = calibrate(
			standardsOn((c) => c).map((x) => ({
				...x,
				concentration: x.concentration + 2,
				signal: x.signal + 2,
			})),
		);
		expect(text(high, 1)).toContain("the lowest standard");
	});
});

describe("where a value becomes a bound", () => {
	test("at the highest standard a value, above it at least that", () => {
		for (const b of [1, -1]) {
			const line = straight(5, b);
			const at = (c: number) => milligrams(line, 5 + b * c);
			expect(at(3.999)[0]).toBe("value");
			expect(at(4.001)).toEqual(["at least", 4]);
		}
	});

	test("a reading that no concentration gives, above the top of a bent line", () => {
		// Its top at 10 mg/L reads 5.5.
		const bent = calibrate(
			standardsOn((c) => 0.5 + c - 0.05 * c * c),
			{
				model: "quadratic",
			},
		);
		expect(milligrams(bent, 9)).toEqual(["at least", 4]);
		expect(milligrams(bent, signalAt(bent, 3.99))[0]).toBe("value");
	});

	test("below the decision limit at most the detection limit", () => {
		const line = straight();
		const { decision, detection } = detectionLimits(line);
		const at = (c: number) => read(line, 0.5 + c).concentration;
		expect(at(decision + 1e-6).is).toBe("value");
		const below = at(decision - 1e-6);
		expect(below).toMatchObject({
			is: "at most",
			because: "it cannot be distinguished from a blank",
		});
		expect(below.quantity.value).toBeCloseTo(detection, 12);
	});

	test("below the lowest standard at most that, whatever could be seen", () => {
		const line = calibrate(
			standardsOn((c) => c).map((x) => ({
				...x,
				concentration: x.concentration + 2,
				signal: x.signal + 2,
			})),
		);
		const at = (c: number) => read(line, c).concentration;
		expect(at(1.9)).toMatchObject({
			is: "at most",
			quantity: { value: 2 },
			because: "it read lower than the lowest standard",
		});
		expect(at(0)).toMatchObject({
			is: "at most",
			quantity: { value: 2 },
			because: "it cannot be distinguished from a blank",
		});
		expect(at(2.01).is).toBe("value");
	});

	test("duplicates lower the limits", () => {
		const line = straight();
		const one = detectionLimits(line).decision;
		const four = detectionLimits(line, { readings: 4 }).decision;
		const between = 0.5 + (one + four) / 2;
		expect(read(line, between).concentration.is).toBe("at most");
		expect(
			read(line, between, between, between, between).concentration.is,
		).toBe("value");
	});
});

describe("a value that is seen but not to build on", () => {
	test("lies below the limit of quantification, pinned on both sides", () => {
		const line = straight();
		const { quantification } = detectionLimits(line);
		if (quantification.is !== "value") throw new Error("none");
		const at = (c: number): boolean => read(line, 0.5 + c).uncertain;
		expect(at(quantification.value - 1e-6)).toBe(true);
		expect(at(quantification.value + 1e-6)).toBe(false);
	});

	test("is any value of a line that has none; a bound is no value", () => {
		const poor = straight(0.5, 0.05);
		expect(read(poor, 0.5 + 0.05 * 3.9)).toMatchObject({
			uncertain: true,
			concentration: { is: "value" },
		});
		expect(read(poor, 9).uncertain).toBe(false);
		expect(read(straight(), 0.5).uncertain).toBe(false);
	});
});

describe("a molar absorptivity in place of standards", () => {
	const about = {
		molarAbsorptivity: 1e5,
		standardUncertainty: 5e3,
		source: "invented",
	};

	test("unless told otherwise 1 cm, up to an absorbance of 1, good to 0.005", () => {
		const line = lineFromAbsorptivity(about);
		expect(line).toMatchObject({
			name: "molar absorptivity",
			model: "through zero",
			concentrationUnit: "µmol/L",
			residualDeviation: 0.005,
			low: 0,
			degreesOfFreedom: Number.POSITIVE_INFINITY,
		});
		// 1e5 L/(mol cm) x 1 cm: 0.1 for a micromole a litre
		expect(line.coefficients).toEqual([0, expect.closeTo(0.1, 12), 0]);
		expect(line.high).toBeCloseTo(10, 12);
		expect(line.covariance[1][1]).toBeCloseTo(0.005 ** 2, 15);
		expect(line.assumptions[0]).toMatch(
			/up to 1, and a reading as good to 0\.005/,
		);
	});

	test("a longer path reads more, with the same relative error", () => {
		const line = lineFromAbsorptivity({
			...about,
			pathLength: 4,
			highestAbsorbance: 2,
			readingDeviation: 0,
		});
		expect(line.coefficients[1]).toBeCloseTo(0.4, 12);
		expect(line.high).toBeCloseTo(5, 12);
		const { quantity } = read(line, 1).concentration;
		expect(quantity.value).toBeCloseTo(2.5, 12);
		expect(quantity.standardUncertainty).toBeCloseTo(2.5 * 0.05, 9);
	});

	test.each([
		{ molarAbsorptivity: 0 },
		{ pathLength: 0 },
		{ highestAbsorbance: 0 },
		{ standardUncertainty: -1 },
		{ readingDeviation: -0.001 },
		{ molarAbsorptivity: Number.NaN },
		{ standardUncertainty: Number.NaN },
	])("%o is refused", (wrong) => {
		expect(() => lineFromAbsorptivity({ ...about, ...wrong })).toThrow(
			/"molar absorptivity".*a light path and a highest absorbance above 0/,
		);
	});

	test("an exact one is not", () => {
		expect(() =>
			lineFromAbsorptivity({
				...about,
				standardUncertainty: 0,
				readingDeviation: 0,
			}),
		).not.toThrow();
	});
});
