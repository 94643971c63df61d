import { describe, expect, test } from "vitest";
import {
	correlation,
	exact,
	input,
	nowhere,
} from "../../../kernel-lib/quantity";
import {
	type CalibrationOptions,
	calibrate,
	checkCalibration,
	type Standard,
} from "../../../kernel-lib/residue/colorimetry";
import {
	lineVariance,
	readingVariance,
} from "../../../kernel-lib/residue/colorimetry/line";
import { s, spread, squares, standardsOn, straight } from "./lines";

const problemsOf = (
	standards: readonly Standard[],
	options: CalibrationOptions = {},
) => {
	const found = checkCalibration(standards, options);
	return found.ok ? [] : found.problems;
};
const codes = (
	standards: readonly Standard[],
	options: CalibrationOptions = {},
): string[] => problemsOf(standards, options).map((p) => p.code);

describe("a straight line by the formulas of a textbook", () => {
	test("coefficients, scatter and degrees of freedom", () => {
		const line = straight();
		expect(line.coefficients).toEqual([
			expect.closeTo(0.5, 12),
			expect.closeTo(1, 12),
			0,
		]);
		expect(line.residualDeviation).toBeCloseTo(s, 12);
		expect(line.degreesOfFreedom).toBe(3);
		expect([line.low, line.high]).toEqual([0, 4]);
	});

	test("covariance: s²(1/n + mean²/Sxx), -s² mean/Sxx, s²/Sxx", () => {
		const [[vaa, vab], [, vbb]] = straight().covariance;
		expect(vaa / s ** 2).toBeCloseTo(1 / 5 + 4 / 10, 10);
		expect(vab / s ** 2).toBeCloseTo(-2 / 10, 10);
		expect(vbb / s ** 2).toBeCloseTo(1 / 10, 10);
	});

	test("the variance of the line at a concentration, and of the mean of readings", () => {
		const line = straight();
		for (const c of [0, 1.5, 4, 6])
			expect(lineVariance(line, c) / s ** 2).toBeCloseTo(spread(c) - 1, 10);
		expect(readingVariance(line, 2, 4)).toBeCloseTo(s ** 2 / 4, 12);
	});

	test("its coefficients as quantities have these errors and go together", () => {
		const { intercept, slope, curvature } = straight().shared;
		expect(intercept.value).toBeCloseTo(0.5, 12);
		expect(slope.standardUncertainty).toBeCloseTo(s / Math.sqrt(10), 12);
		expect(correlation(intercept, slope)).toBeCloseTo(
			-0.2 / Math.sqrt(0.6 * 0.1),
			9,
		);
		expect([curvature.value, curvature.standardUncertainty]).toEqual([0, 0]);
		expect(slope.name.meaning).toBe("change of the signal for 1 mg/L");
		expect(curvature.name.meaning).toContain("none in this line");
	});

	test("every standard with what the line says of it", () => {
		const { points } = straight();
		expect(points.map((p) => p.standard)).toEqual(["1", "2", "3", "4", "5"]);
		expect(points[1]).toMatchObject({
			concentration: 1,
			signal: 1.52,
			weight: 1,
			fitted: expect.closeTo(1.5, 12),
			residual: expect.closeTo(0.02, 12),
		});
		const named = standardsOn((c) => c).map((x, i) => ({
			...x,
			name: `E${i}`,
		}));
		expect(calibrate(named).points[0].standard).toBe("E0");
	});
});

describe("other shapes", () => {
	test("through zero: b = Σ c S/Σ c², one coefficient, no zero to be wrong", () => {
		const line = calibrate(
			standardsOn((c) => 2 * c),
			{
				model: "through zero",
			},
		);
		expect(line.coefficients).toEqual([0, expect.closeTo(2, 12), 0]);
		expect(line.degreesOfFreedom).toBe(4);
		expect(line.covariance[1][1]).toBeCloseTo(squares / 4 / 30, 12);
		expect(line.shared.intercept.standardUncertainty).toBe(0);
	});

	test("quadratic: three coefficients, the bend with s²/14", () => {
		const line = calibrate(
			standardsOn((c) => 0.5 + c - 0.05 * c * c),
			{
				model: "quadratic",
			},
		);
		expect(line.coefficients).toEqual([
			expect.closeTo(0.5, 10),
			expect.closeTo(1, 10),
			expect.closeTo(-0.05, 10),
		]);
		expect(line.degreesOfFreedom).toBe(2);
		expect(line.residualDeviation).toBeCloseTo(Math.sqrt(squares / 2), 12);
		expect(line.points[4].fitted).toBeCloseTo(0.5 + 4 - 0.05 * 16, 10);
		// c² - 4c + 2 takes 2, -1, -2, -1, 2 at the standards: 14
		expect(line.shared.curvature.standardUncertainty).toBeCloseTo(
			Math.sqrt(squares / 2 / 14),
			12,
		);
		// Its variance at the middle: s²(1/5 + 4/14)
		expect(lineVariance(line, 2)).toBeCloseTo(
			(squares / 2) * (1 / 5 + 4 / 14),
			12,
		);
	});
});

describe("readings that are not all alike, on a line through zero", () => {
	const xs = [1, 2, 4];
	const ys = [1.1, 1.9, 4.2];
	const of = (
		readingError: CalibrationOptions["readingError"],
		deviations: readonly number[] = [],
	) =>
		calibrate(
			xs.map((concentration, i) => ({
				concentration,
				signal: ys[i],
				...(deviations.length > 0 ? { deviation: deviations[i] } : {}),
			})),
			{ model: "through zero", readingError },
		);
	const sum = (f: (x: number, y: number) => number): number =>
		xs.reduce((total, x, i) => total + f(x, ys[i]), 0);

	test("variance with signal: b = Σ c/Σ (c²/S)", () => {
		const line = of("variance with signal");
		expect(line.coefficients[1]).toBeCloseTo(
			7 / sum((x, y) => (x * x) / y),
			12,
		);
		expect(line.points.map((p) => p.weight)).toEqual(ys.map((y) => 1 / y));
		// A reading twice as large has twice the variance; below the smallest standard it falls no further.
		const variance = (signal: number): number =>
			readingVariance(line, signal, 1);
		expect(variance(4) / variance(2)).toBeCloseTo(2, 12);
		expect(variance(0.1)).toBe(variance(1.1));
		expect(variance(-4)).toBe(variance(4));
	});

	test("deviation with signal: b = Σ (c/S)/Σ (c/S)²", () => {
		const line = of("deviation with signal");
		expect(line.coefficients[1]).toBeCloseTo(
			sum((x, y) => x / y) / sum((x, y) => (x / y) ** 2),
			12,
		);
		const variance = (signal: number): number =>
			readingVariance(line, signal, 1);
		expect(variance(4) / variance(2)).toBeCloseTo(4, 12);
	});

	test("stated: weights in inverse proportion to the squares, 1 for their mean", () => {
		const line = of("stated", [0.1, 0.2, 0.4]);
		// mean square (0.01 + 0.04 + 0.16)/3 = 0.07
		expect(line.points.map((p) => p.weight)).toEqual([
			expect.closeTo(7, 12),
			expect.closeTo(1.75, 12),
			expect.closeTo(0.4375, 12),
		]);
		expect(line.coefficients[1]).toBeCloseTo(
			(1.1 / 0.01 + 3.8 / 0.04 + 16.8 / 0.16) /
				(1 / 0.01 + 4 / 0.04 + 16 / 0.16),
			12,
		);
		expect(readingVariance(line, 4, 1)).toBeCloseTo(
			line.residualDeviation ** 2,
			12,
		);
	});

	test("a reading of zero weighs as much as the smallest other", () => {
		const line = calibrate(
			[0, 0.2, 0.4, 0.9].map((signal, i) => ({ concentration: i, signal })),
			{ readingError: "variance with signal" },
		);
		expect(line.points.map((p) => p.weight)).toEqual([5, 5, 2.5, 1 / 0.9]);
	});
});

describe("what keeps standards from making a line", () => {
	const good = standardsOn((c) => c);

	test("a concentration below 0, or what is not finite; 0 is one", () => {
		for (const bad of [
			{ concentration: -0.1, signal: 0.1 },
			{ concentration: Number.POSITIVE_INFINITY, signal: 0.1 },
			{ concentration: 1, signal: Number.POSITIVE_INFINITY },
		])
			expect(codes([...good, bad])).toEqual(["standard-not-a-number"]);
		expect(codes([...good, { concentration: 0, signal: 0 }])).toEqual([]);
	});

	test("the standard is called by its name and looked for in its place", () => {
		const place = { ...nowhere, row: 7 };
		const [problem] = problemsOf([
			...good,
			{ concentration: -1, signal: 0, name: "E9", place },
		]);
		expect(problem.found).toBe('standard "E9" of -1 that reads 0');
		expect(problem.where.row).toBe(7);
		const [nameless] = problemsOf([...good, { concentration: -1, signal: 0 }]);
		expect(nameless.found).toMatch(/^a standard of -1/);
	});

	test("stated deviations must all be there, and above 0; else nobody asks for them", () => {
		const stated = good.map((x) => ({ ...x, deviation: 0.01 }));
		const options = { readingError: "stated" } as const;
		expect(codes(stated, options)).toEqual([]);
		expect(codes(good, options)).toEqual(good.map(() => "deviation-missing"));
		expect(codes([...stated, { ...good[0], deviation: 0 }], options)).toEqual([
			"deviation-missing",
		]);
		expect(codes([...good, { ...good[0], deviation: 0 }])).toEqual([]);
	});

	test.each<[CalibrationOptions["model"], readonly number[], boolean]>([
		["straight", [0, 1], false],
		["straight", [0, 0, 1], true],
		["straight", [1, 1, 1], false],
		["through zero", [1], false],
		["through zero", [1, 1], true],
		["quadratic", [0, 1, 2], false],
		["quadratic", [0, 1, 2, 2], true],
		["quadratic", [0, 0, 1, 1], false],
	])("%s at %j: enough is %s", (model, xs, enough) => {
		const standards = xs.map((x, i) => ({
			concentration: x,
			signal: x - 0.01 * x * x + (i % 2) * 1e-4,
		}));
		expect(codes(standards, { model })).toEqual(
			enough ? [] : ["too-few-standards"],
		);
	});

	test("how many there are, and how many it takes", () => {
		const [one] = problemsOf([{ concentration: 1, signal: 1 }]);
		expect(one.found).toBe("1 reading at 1 concentration");
		expect(one.expected).toContain("at least 3 readings at 2 concentrations");
		const [two] = problemsOf(good.slice(0, 2));
		expect(two.found).toBe("2 readings at 2 concentrations");
	});

	test("concentrations that can hardly be told apart are as good as one", () => {
		const at = (second: number) => () =>
			calibrate(
				[0, second, 1, 0, 1].map((x, i) => ({
					concentration: x,
					signal: x + (i % 2) * 1e-3,
				})),
				{ model: "quadratic" },
			);
		expect(at(1e-8)).toThrow(
			/"concentration".*too few different concentrations/,
		);
		expect(at(0.4)).not.toThrow();
		expect(() =>
			calibrate(
				[0, 0].map((x) => ({ concentration: x, signal: 1 })),
				{ model: "through zero" },
			),
		).toThrow(/"concentration".*too few different concentrations/);
	});

	test("a slope within its 95 % error, pinned on both sides, rising and falling: t(0.975; 3) u(b) = 3.1824 × 0.0057735", () => {
		for (const sign of [1, -1]) {
			expect(codes(standardsOn((c) => sign * 0.01835 * c))).toEqual([
				"line-flat",
			]);
			expect(codes(standardsOn((c) => sign * 0.0184 * c))).toEqual([]);
		}
	});

	test("on a bent line the rise from end to end counts: 4.3027 × 0.0070711 for each unit", () => {
		const options = { model: "quadratic" } as const;
		expect(
			codes(
				standardsOn((c) => 0.0303 * c),
				options,
			),
		).toEqual(["line-flat"]);
		expect(
			codes(
				standardsOn((c) => 0.0306 * c),
				options,
			),
		).toEqual([]);
	});

	test("a bent line that ends as high as it began has no rise", () => {
		const options = { model: "quadratic" } as const;
		expect(
			codes(
				standardsOn((c) => c * (4 - c)),
				options,
			),
		).toEqual(["line-flat"]);
	});

	test("nothing but zeros is flat, however readings are weighted", () => {
		for (const readingError of ["alike", "variance with signal"] as const)
			expect(
				codes(
					standardsOn(() => 0, 0),
					{ readingError },
				),
			).toEqual(["line-flat"]);
	});

	test("a line that turns back before its highest standard, pinned on both sides", () => {
		const options = { model: "quadratic" } as const;
		expect(
			codes(
				standardsOn((c) => c * (7.9 - c)),
				options,
			),
		).toEqual(["line-bends-over"]);
		expect(
			codes(
				standardsOn((c) => c * (8.1 - c)),
				options,
			),
		).toEqual([]);
		expect(
			codes(
				standardsOn((c) => -c * (7.9 - c)),
				options,
			),
		).toEqual(["line-bends-over"]);
		expect(
			codes(
				standardsOn((c) => -c * (8.1 - c)),
				options,
			),
		).toEqual([]);
	});
});

describe("what a line says of itself", () => {
	test("unless told otherwise a straight line of absorbances in mg/L", () => {
		expect(straight()).toMatchObject({
			name: "calibration",
			model: "straight",
			readingError: "alike",
			signalKind: "absorbance",
			signalUnit: "absorbance",
			concentrationKind: "massConcentration",
			concentrationUnit: "mg/L",
			assumptions: [],
		});
		expect(straight().source).toMatch(
			/^calibration line "calibration": 5 readings of standards \(content \w+\)$/,
		);
		expect(straight().strength.value).toBe(1);
		// Other readings are another source.
		expect(straight(0.6).source).not.toBe(straight().source);
	});

	test("as it was told", () => {
		const strength = input("ratio", 1.02, "1", exact, {});
		expect(
			straight(0.5, 1, {
				name: "salt",
				signal: "conductivity",
				concentrationUnit: "mmol/L",
				strength,
				assumptions: ["taken for granted"],
				source: "a notebook",
			}),
		).toMatchObject({
			name: "salt",
			signalKind: "conductivity",
			signalUnit: "µS/cm",
			concentrationKind: "concentration",
			concentrationUnit: "mmol/L",
			strength: { value: 1.02 },
			assumptions: ["taken for granted"],
			source: "a notebook",
		});
		expect(
			straight(0.5, 1, { signal: "conductivity", signalUnit: "mS/cm" })
				.signalUnit,
		).toBe("mS/cm");
	});

	test("standards that stand exactly on it show no scatter", () => {
		const line = calibrate(standardsOn((c) => c, 0));
		expect(line.residualDeviation).toBe(0);
		expect(line.assumptions).toEqual([
			expect.stringMatching(/^All standards stand exactly on the line/),
		]);
	});

	test("everything wrong is told at once, an unknown unit among it", () => {
		expect(
			codes([{ concentration: 1, signal: 1 }], { concentrationUnit: "grains" }),
		).toEqual(["too-few-standards", "unit-unknown"]);
		expect(
			codes(
				standardsOn((c) => c),
				{ concentrationUnit: "drops" },
			),
		).toEqual(["unit-unknown"]);
	});
});
