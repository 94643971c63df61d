import { describe, expect, test } from "vitest";
import {
	calibrate,
	lineFromAbsorptivity,
	predictionBand,
	readBackwards,
} from "../../../kernel-lib/residue/colorimetry";
import {
	lineVariance,
	readingVariance,
	signalAt,
} from "../../../kernel-lib/residue/colorimetry/line";
import { s, spread, standardsOn, straight, t3 } from "./lines";

describe("a straight line read backwards", () => {
	test("u = s/b sqrt(1/m + 1/n + (c - mean)²/Sxx), and t times it either way", () => {
		for (const [c, m] of [
			[3, 1],
			[0.5, 4],
		]) {
			const read = readBackwards(straight(), 0.5 + c, m);
			const u = s * Math.sqrt(spread(c, m));
			expect(read.concentration).toBeCloseTo(c, 10);
			expect(read.standardUncertainty).toBeCloseTo(u, 10);
			expect(read.interval.low).toBeCloseTo(c - t3[95] * u, 9);
			expect(read.interval.high).toBeCloseTo(c + t3[95] * u, 9);
			expect(read.coverageFactor).toBeCloseTo(t3[95], 9);
			expect(read.confidence).toBe(0.95);
		}
	});

	test("one reading and 95 % unless told otherwise", () => {
		const line = straight();
		expect(readBackwards(line, 2)).toEqual(readBackwards(line, 2, 1, 0.95));
		expect(readBackwards(line, 2, 1, 0.9).coverageFactor).toBeCloseTo(
			t3[90],
			9,
		);
	});

	test("a falling line gives the same", () => {
		const falling = readBackwards(straight(3, -1), 0, 2);
		expect(falling.concentration).toBeCloseTo(3, 10);
		expect(falling.standardUncertainty).toBeCloseTo(
			s * Math.sqrt(spread(3, 2)),
			10,
		);
		const { exact } = falling;
		const rising = readBackwards(straight(), 3.5, 2).exact;
		if (exact.is !== "interval" || rising.is !== "interval")
			throw new Error("no interval");
		expect(exact.low).toBeLessThan(exact.high);
		expect(exact.high - exact.low).toBeCloseTo(rising.high - rising.low, 9);
	});

	test.each([
		[0.2, 3.5],
		// Hardly steeper than its error: t u(b) = 0.018374, so that 1 - g is 0.0018 and the upper end lies far out.
		[0.01839, 3.5],
	])(
		"Fieller, slope %s: mean + [d ± t s/b sqrt((1/m + 1/n)(1 - g) + d²/Sxx)]/(1 - g), g = t² s²/(b² Sxx)",
		(b, c) => {
			const { exact } = readBackwards(straight(0.5, b), 0.5 + b * c, 2);
			if (exact.is !== "interval") throw new Error("no interval");
			const g = (t3[95] * s) ** 2 / (b * b * 10);
			const d = c - 2;
			const half =
				((t3[95] * s) / b) *
				Math.sqrt((1 / 2 + 1 / 5) * (1 - g) + (d * d) / 10);
			expect(exact.low).toBeCloseTo(2 + (d - half) / (1 - g), 6);
			expect(exact.high / (2 + (d + half) / (1 - g))).toBeCloseTo(1, 9);
		},
	);

	test("only while the slope differs from zero with that confidence: b/u(b) = 5.196 lies between t of 98 and 99 %", () => {
		const at = (confidence: number) =>
			readBackwards(straight(0.5, 0.03), 0.55, 1, confidence).exact;
		// t(0.99; 3) = 4.541, t(0.995; 3) = 5.841
		expect(at(0.98).is).toBe("interval");
		expect(at(0.99)).toEqual({
			is: "not available",
			because: expect.stringContaining("does not differ from zero"),
		});
	});

	test("without any error there is nothing either way", () => {
		const line = lineFromAbsorptivity({
			molarAbsorptivity: 1e5,
			standardUncertainty: 0,
			readingDeviation: 0,
			source: "invented",
		});
		const read = readBackwards(line, 0.5);
		expect(read.concentration).toBeCloseTo(5, 12);
		expect(read.exact).toEqual({
			is: "interval",
			low: read.concentration,
			high: read.concentration,
		});
	});

	test("what is no reading is refused", () => {
		const line = straight();
		expect(() => readBackwards(line, Number.NaN)).toThrow(
			/"reading".*a signal of NaN/,
		);
		expect(() => readBackwards(line, Number.POSITIVE_INFINITY)).toThrow(
			/a finite number/,
		);
		expect(() => readBackwards(line, 1, 0)).toThrow(/the mean of 0 readings/);
		expect(() => readBackwards(line, 1, Number.NaN)).toThrow(/at least one/);
	});
});

describe("a bent line read backwards", () => {
	const parabola = () =>
		calibrate(
			standardsOn((c) => 0.5 + c - 0.05 * c * c),
			{
				model: "quadratic",
			},
		);

	test("on the branch that starts at zero", () => {
		const bent = parabola();
		for (const c of [0, 1, 2.7, 4])
			expect(readBackwards(bent, signalAt(bent, c)).concentration).toBeCloseTo(
				c,
				10,
			);
		// The top of the parabola, at 10, is the most that it can say.
		expect(readBackwards(bent, 99).concentration).toBeGreaterThan(10);
	});

	test("u is that of signal and line over the slope there", () => {
		const bent = parabola();
		const read = readBackwards(bent, signalAt(bent, 3), 2);
		// slope 1 - 2 × 0.05 × 3
		expect(read.standardUncertainty).toBeCloseTo(
			Math.sqrt(
				readingVariance(bent, 3, 2) + lineVariance(bent, read.concentration),
			) / 0.7,
			9,
		);
	});

	test("at both ends the reading stands at the edge of the prediction interval", () => {
		const bent = parabola();
		for (const c of [0.5, 2, 3]) {
			const signal = signalAt(bent, c);
			const { exact, coverageFactor } = readBackwards(bent, signal);
			if (exact.is !== "interval") throw new Error(exact.because);
			expect(exact.low).toBeLessThan(c);
			expect(exact.high).toBeGreaterThan(c);
			for (const end of [exact.low, exact.high])
				expect(Math.abs(signal - signalAt(bent, end))).toBeCloseTo(
					coverageFactor *
						Math.sqrt(
							readingVariance(bent, signal, 1) + lineVariance(bent, end),
						),
					9,
				);
		}
	});

	test("standards that stand on it but for rounding: hardly an interval, and no complaint", () => {
		// A straight line of readings, in units that round them; found by a property test.
		const factor = 99.99999999999993;
		const signals = [
			0.01, 0.38692805574176375, 0.7638561114835275, 1.517712222967055,
			2.271568334450582, 3.0254244459341098,
		];
		const line = calibrate(
			[0, 1, 2, 4, 6, 8].map((concentration, i) => ({
				concentration,
				signal: signals[i] * factor,
			})),
			{ model: "quadratic" },
		);
		const { exact } = readBackwards(line, signals[3] * factor, 2);
		if (exact.is !== "interval") throw new Error(exact.because);
		expect(exact.low).toBeCloseTo(4, 9);
		expect(exact.high).toBeCloseTo(4, 9);
	});

	test("near its top there is no upper end", () => {
		const turning = calibrate(
			standardsOn((c) => c * (8.1 - c)),
			{
				model: "quadratic",
			},
		);
		expect(readBackwards(turning, signalAt(turning, 4)).exact).toEqual({
			is: "not available",
			because: "the line bends over before the interval ends",
		});
		expect(readBackwards(turning, signalAt(turning, 2)).exact.is).toBe(
			"interval",
		);
	});
});

describe("the prediction band", () => {
	test("signal ± t s sqrt(1/m + 1/n + (c - mean)²/Sxx)", () => {
		const [point] = predictionBand(straight(), [3], 2, 0.9);
		const half = t3[90] * s * Math.sqrt(spread(3, 2));
		expect(point.concentration).toBe(3);
		expect(point.signal).toBeCloseTo(3.5, 10);
		expect(point.low).toBeCloseTo(3.5 - half, 9);
		expect(point.high).toBeCloseTo(3.5 + half, 9);
	});

	test("of one reading and 95 % unless told otherwise", () => {
		const line = straight();
		expect(predictionBand(line, [0, 4])).toEqual(
			predictionBand(line, [0, 4], 1, 0.95),
		);
	});
});
