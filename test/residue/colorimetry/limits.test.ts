import { describe, expect, test } from "vitest";
import {
	type CalibrationLine,
	calibrate,
	detectionLimits,
	lineFromAbsorptivity,
	workingRange,
} from "../../../kernel-lib/residue/colorimetry";
import {
	bendTest,
	evenScatter,
	lackOfFit,
} from "../../../kernel-lib/residue/colorimetry/shape-tests";
import { s, spread, standardsOn, straight, t3 } from "./lines";

const read = (signals: readonly (readonly [number, number])[]) =>
	signals.map(([concentration, signal]) => ({ concentration, signal }));

describe("limits of a line, from memory of DIN 32645", () => {
	test("decision s/b t(0.95) sqrt(1/m + 1/n + mean²/Sxx), detection twice that", () => {
		for (const m of [1, 3]) {
			const limits = detectionLimits(straight(), { readings: m });
			const decision = t3[90] * s * Math.sqrt(spread(0, m));
			expect(limits.decision).toBeCloseTo(decision, 9);
			expect(limits.detection).toBeCloseTo(2 * decision, 9);
		}
		// t(0.99; 3) for an error probability of 1 %
		expect(
			detectionLimits(straight(), { errorProbability: 0.01 }).decision,
		).toBeCloseTo(t3[98] * s * Math.sqrt(spread(0)), 9);
	});

	test("ISO 11843: the noncentral t in place of twice t, a little less", () => {
		const din = detectionLimits(straight());
		const iso = detectionLimits(straight(), { definition: "ISO 11843" });
		expect(iso.decision).toBeCloseTo(din.decision, 12);
		expect(iso.detection).toBeLessThan(din.detection);
		expect(iso.detection).toBeGreaterThan(1.8 * iso.decision);
	});

	test("quantification where x = k t s/b sqrt(1/m + 1/n + (x - mean)²/Sxx)", () => {
		for (const k of [2, 3]) {
			const { quantification } = detectionLimits(straight(), {
				quantificationFactor: k,
			});
			if (quantification.is !== "value") throw new Error("none");
			const x = quantification.value;
			expect(x).toBeCloseTo(k * t3[95] * s * Math.sqrt(spread(x)), 9);
		}
	});

	test("a falling line has those of the rising one", () => {
		const [up, down] = [straight(3, 1), straight(3, -1)].map((line) =>
			detectionLimits(line),
		);
		expect(down.decision).toBeCloseTo(up.decision, 9);
		expect(down.detection).toBeCloseTo(up.detection, 9);
		if (up.quantification.is !== "value" || down.quantification.is !== "value")
			throw new Error("none");
		expect(down.quantification.value).toBeCloseTo(up.quantification.value, 9);
	});

	test("a line whose highest standard is too uncertain has no limit of quantification", () => {
		expect(detectionLimits(straight(0.5, 0.05)).quantification).toEqual({
			is: "not available",
			because:
				"even at the highest standard the interval is wider than 1/3 of the value",
		});
		expect(workingRange(straight(0.5, 0.05)).is).toBe("not available");
		expect(detectionLimits(straight(0.5, 0.1)).quantification.is).toBe("value");
	});

	test("on a bent line too: where x = k t u(x), u by the slope there", () => {
		const bent = calibrate(
			standardsOn((c) => 0.5 + c - 0.05 * c * c),
			{
				model: "quadratic",
			},
		);
		const { quantification } = detectionLimits(bent);
		if (quantification.is !== "value") throw new Error("none");
		const x = quantification.value;
		const g = [1, x, x * x];
		const own = g.reduce(
			(sum, gi, i) =>
				sum + gi * g.reduce((r, gj, j) => r + bent.covariance[i][j] * gj, 0),
			bent.residualDeviation ** 2,
		);
		// t(0.975; 2)
		expect(x).toBeCloseTo(
			(3 * 4.302652729 * Math.sqrt(own)) / (1 - 0.1 * x),
			6,
		);
	});

	test("how they were worked out, in words", () => {
		const method = (options = {}): string =>
			detectionLimits(straight(), options).method;
		expect(method()).toMatch(
			/^DIN 32645, .*probability 0\.05 .*mean of 1 reading; .*1\/3 of the value either way\.$/,
		);
		expect(method({ definition: "ISO 11843", readings: 2 })).toMatch(
			/^ISO 11843, .*mean of 2 readings; .*\(DIN 32645; ISO 11843 defines none\)\.$/,
		);
	});

	test("the working range begins at the limit of quantification or the lowest standard", () => {
		const { quantification } = detectionLimits(straight());
		expect(workingRange(straight())).toEqual({
			is: "range",
			low: quantification.is === "value" ? quantification.value : Number.NaN,
			high: 4,
		});
		const high = calibrate(
			standardsOn((c) => c).map((x) => ({
				...x,
				concentration: x.concentration + 2,
			})),
		);
		expect(workingRange(high)).toMatchObject({ low: 2, high: 6 });
	});
});

describe("tests of shape", () => {
	const because = (found: ReturnType<typeof bendTest>): string =>
		found.is === "not available" ? found.because : "";

	test("what they need", () => {
		expect(because(lackOfFit(straight()))).toMatch(/more than once/);
		const twoLevels = calibrate(
			read([
				[0, 0],
				[0, 0.1],
				[1, 1],
				[1, 1.1],
			]),
		);
		expect(because(lackOfFit(twoLevels))).toBe(
			"2 concentrations leave nothing to test beside 2 coefficients",
		);
		const alike = calibrate(
			read([
				[0, 0],
				[0, 0],
				[1, 1.1],
				[2, 2],
			]),
		);
		expect(because(lackOfFit(alike))).toMatch(/does not scatter at all/);
		const bent = calibrate(
			standardsOn((c) => 0.5 + c - 0.05 * c * c),
			{
				model: "quadratic",
			},
		);
		expect(because(bendTest(bent))).toMatch(/straight lines with an intercept/);
		expect(because(bendTest(calibrate(standardsOn((c) => c, 0))))).toMatch(
			/does not scatter at all/,
		);
		const once = calibrate(
			read([
				[0, 0],
				[0, 0.1],
				[1, 1.1],
				[2, 2],
			]),
		);
		expect(because(evenScatter(once))).toMatch(/not both read twice/);
		const other = calibrate(
			read([
				[0, 0],
				[1, 1.1],
				[2, 2],
				[2, 2.1],
			]),
		);
		expect(because(evenScatter(other))).toMatch(/not both read twice/);
		const still = calibrate(
			read([
				[0, 0],
				[0, 0],
				[2, 2],
				[2, 2.1],
			]),
		);
		expect(evenScatter(still)).toEqual({
			is: "not available",
			because: expect.stringMatching(/does not scatter at all/),
		});
	});

	test("through zero there is one level more to test", () => {
		const found = lackOfFit(
			calibrate(
				read([
					[1, 0.9],
					[1, 1.1],
					[2, 2.1],
					[2, 2.3],
				]),
				{
					model: "through zero",
				},
			),
		);
		if (found.is !== "value") throw new Error(found.because);
		// b = (0.9 + 1.1 + 4.2 + 4.6)/10 = 1.08; residuals -0.18, 0.02, -0.06, 0.14: squares 0.056; pure 0.02 + 0.02
		expect(found.degreesOfFreedom).toEqual([1, 2]);
		expect(found.F).toBeCloseTo((0.056 - 0.04) / (0.04 / 2), 9);
	});

	test("each reading counts by its weight", () => {
		const list = read([
			[1, 0.9],
			[1, 1.1],
			[2, 2.1],
			[2, 2.3],
		]);
		const weighted = calibrate(list, {
			model: "through zero",
			readingError: "variance with signal",
		});
		const found = lackOfFit(weighted);
		if (found.is !== "value") throw new Error(found.because);
		// w = 1/S, b = Σ c/Σ (c²/S)
		const b = 6 / (1 / 0.9 + 1 / 1.1 + 4 / 2.1 + 4 / 2.3);
		const all = list.reduce(
			(sum, { concentration: c, signal: y }) => sum + (y - b * c) ** 2 / y,
			0,
		);
		const within = (x: number, y: number): number => {
			const mean = 2 / (1 / x + 1 / y);
			return (x - mean) ** 2 / x + (y - mean) ** 2 / y;
		};
		const pure = within(0.9, 1.1) + within(2.1, 2.3);
		expect(found.F).toBeCloseTo((all - pure) / (pure / 2), 9);
	});

	test("ends that scatter alike: F = 1, p = 1", () => {
		const found = evenScatter(
			calibrate(
				read([
					[0, 0],
					[0, 0.1],
					[2, 2],
					[2, 2.1],
				]),
			),
		);
		expect(found).toMatchObject({
			is: "value",
			F: expect.closeTo(1, 9),
			p: 1,
			degreesOfFreedom: [1, 1],
			contradicts: false,
		});
	});

	test("ends that were read a different number of times: each with its own degrees of freedom", () => {
		// Squares about the mean: 0.02 on 2 at the low end, 0.32 on 1 at the high one.
		const found = evenScatter(
			calibrate(
				read([
					[0, 0],
					[0, 0.1],
					[0, 0.2],
					[4, 3.6],
					[4, 4.4],
				]),
			),
		);
		if (found.is !== "value") throw new Error(found.because);
		expect(found.degreesOfFreedom).toEqual([1, 2]);
		expect(found.F).toBeCloseTo(0.32 / 0.01, 9);
	});
});

describe("a line in numbers", () => {
	const rows = (line: CalibrationLine) => line.table.rows;

	test("its coefficients with their errors, its scatter, its degrees of freedom", () => {
		expect(rows(straight())).toEqual([
			// u(a) = 0.0183 sqrt(0.6), u(b) = 0.0183/sqrt(10)
			["a", "reading at no concentration", "0.500 (u 0.014)", "absorbance"],
			["b", "slope", "1.0000 (u 0.0058)", "absorbance per mg/L"],
			[
				"s",
				"scatter of a single reading about the line",
				"0.018",
				"absorbance",
			],
			["", "degrees of freedom", "3", ""],
		]);
		expect(straight().table.title).toBe('Line "calibration": S = a + b c');
	});

	test("a coefficient without an error is there all the same", () => {
		const [slope] = rows(
			lineFromAbsorptivity({
				molarAbsorptivity: 1e5,
				standardUncertainty: 0,
				source: "invented",
			}),
		);
		expect(slope.slice(0, 3)).toEqual([
			"b",
			"slope",
			expect.stringMatching(/^0\.1/),
		]);
	});

	test("a bend has its own unit, a line through zero no zero", () => {
		const bent = calibrate(
			standardsOn((c) => 0.5 + c - 0.05 * c * c),
			{
				model: "quadratic",
			},
		);
		expect(rows(bent).map((row) => [row[0], row[3]])).toContainEqual([
			"k",
			"absorbance per (mg/L)²",
		]);
		const zero = calibrate(
			standardsOn((c) => c),
			{ model: "through zero" },
		);
		expect(rows(zero).map((row) => row[0])).toEqual(["b", "s", ""]);
		expect(
			rows(
				lineFromAbsorptivity({
					molarAbsorptivity: 7e4,
					standardUncertainty: 7e3,
					source: "invented",
				}),
			).at(-1)?.[2],
		).toBe("stated, not estimated");
	});

	test("every standard with its distance, in units of the scatter too", () => {
		const { rows: shown, columns } = straight().standards;
		expect(columns[1]).toBe("concentration (mg/L)");
		// -0.01 and 0.02 over 0.0183
		expect(shown.slice(0, 2)).toEqual([
			["1", "0", "0.490", "0.500", "−0.010", "−0.5"],
			["2", "1", "1.520", "1.500", "0.020", "1.1"],
		]);
		const exactly = calibrate(standardsOn((c) => c, 0)).standards;
		expect(exactly.rows.map((row) => row[5])).toEqual([
			"0",
			"0",
			"0",
			"0",
			"0",
		]);
	});

	test("a reading that weighs more is further off in those units", () => {
		const line = calibrate(
			standardsOn((c) => c).map((x, i) => ({
				...x,
				deviation: i === 0 ? 0.01 : 0.02,
			})),
			{ readingError: "stated" },
		);
		const [first] = line.points;
		expect(line.standards.rows[0][5]).toBe(
			((first.residual * Math.sqrt(first.weight)) / line.residualDeviation)
				.toFixed(1)
				.replace("-", "−"),
		);
		// weights 0.00034/0.0001
		expect(first.weight).toBeCloseTo(3.4, 9);
	});
});

describe("what speaks for and against a line", () => {
	const shown = (line: CalibrationLine, check: RegExp): readonly unknown[] =>
		line.checks.rows.find((row) => check.test(String(row[0]))) ?? [];
	const twice = (d: number, noise: number) =>
		calibrate(
			[0, 0, 1, 1, 2, 2, 3, 3].map((c, i) => ({
				concentration: c,
				signal: c + (c === 1 ? d : 0) + (i % 2 === 0 ? noise : -noise),
			})),
		);

	test("lack of fit, and how rare", () => {
		const [, found, means] = shown(twice(0, 0.01), /^lack of fit/);
		expect(found).toMatch(/^F\(2; 4\) = .*, p = 1\.0$/);
		expect(means).toMatch(/do not contradict the line/);
		const [, far, wrong] = shown(twice(0.4, 0.01), /^lack of fit/);
		expect(far).toMatch(/p = below 0\.001$/);
		expect(wrong).toMatch(/look for a wrong standard/);
		const [, none, because] = shown(straight(), /^lack of fit/);
		expect(none).toBe("not available");
		expect(because).toMatch(/more than once/);
	});

	test("a bend, and scatter that differs at the ends", () => {
		expect(shown(straight(), /^bend/)[2]).toMatch(/no better/);
		const bent = calibrate(standardsOn((c) => c - 0.05 * c * c));
		expect(shown(bent, /^bend/)[2]).toMatch(/take the quadratic one/);
		expect(shown(twice(0, 0.01), /^even scatter/)[2]).toMatch(/no sign/);
	});

	test("limits with their unit, and the range", () => {
		const { decision, detection, quantification } = detectionLimits(straight());
		expect(shown(straight(), /^decision/)[1]).toBe(
			`${decision.toPrecision(2)} mg/L`,
		);
		expect(shown(straight(), /^limit of detection/)[1]).toBe(
			`${detection.toPrecision(2)} mg/L`,
		);
		if (quantification.is !== "value") throw new Error("none");
		const q = quantification.value.toPrecision(2);
		expect(shown(straight(), /^limit of quantification/).slice(1)).toEqual([
			`${q} mg/L`,
			expect.stringContaining("good to a third"),
		]);
		expect(shown(straight(), /^working range/)[1]).toBe(`${q} to 4 mg/L`);
	});

	test("a line too uncertain for any number says so", () => {
		const poor = straight(0.5, 0.05);
		expect(shown(poor, /^limit of quantification/).slice(1)).toEqual([
			"not available",
			expect.stringContaining("wider than 1/3"),
		]);
		expect(shown(poor, /^working range/)[1]).toBe("not available");
	});

	test("by the definition that was asked for", () => {
		const { rows, notes } = straight(0.5, 1, {
			limits: { definition: "ISO 11843" },
		}).checks;
		expect(rows[3][2]).toContain("(ISO 11843)");
		expect(notes[0]).toMatch(/^ISO 11843/);
	});
});
