import { describe, expect, test } from "vitest";
import { fit as fitCurve, predict } from "../../kernel-lib/fit";
import { createRandom } from "../../kernel-lib/stats";
import { hyperbola, line, tenDoses, valueIn } from "./fixtures";

const x = [1, 2, 3, 4, 5, 6, 7, 8];
const y = [2.2, 4.1, 5.7, 8.4, 9.9, 12.3, 13.8, 16.1];
const straight = fitCurve(line, { x, y });
const t = 2.4469118511449692; // t(0.975; 6)

describe("bands of a line, in closed form", () => {
	const mean = 4.5;
	const spread = x.reduce((s, v) => s + (v - mean) ** 2, 0);
	const sd = Math.sqrt(straight.residualSumOfSquares / 6);

	test.each([1, 4.5, 7.3, 12])("at x = %d", (at) => {
		const [found] = predict(straight, [at]);
		const se = sd * Math.sqrt(1 / 8 + (at - mean) ** 2 / spread);
		const value = straight.theta[0] + straight.theta[1] * at;
		expect(found.value).toBeCloseTo(value, 12);
		expect(valueIn(found.standardError)).toBeCloseTo(se, 10);
		const curve = valueIn(found.confidenceBandOfCurve);
		expect(curve.low).toBeCloseTo(value - t * se, 9);
		expect(curve.high).toBeCloseTo(value + t * se, 9);
		const point = valueIn(found.predictionBandOfPoint);
		expect(point.high).toBeCloseTo(value + t * Math.sqrt(se * se + sd * sd), 9);
		// Scheffe's band for the whole line: sqrt(2 F(0.95; 2, 6)) in place of t.
		const [whole] = predict(straight, [at], { simultaneous: true });
		expect(valueIn(whole.confidenceBandOfCurve).high).toBeCloseTo(
			value + Math.sqrt(2 * 5.143252849784718) * se,
			8,
		);
	});

	test("a new point's own sigma may be given", () => {
		const [found] = predict(straight, [3], { sigmaNew: 2 });
		const se = valueIn(found.standardError);
		expect(valueIn(found.predictionBandOfPoint).high - found.value).toBeCloseTo(
			t * Math.sqrt(se * se + 4),
			9,
		);
	});

	test("with absolute sigmas the normal quantile is used and the sigma is the point's", () => {
		const found = predict(
			fitCurve(line, { x, y, sigmaY: 0.4, sigmaIsAbsolute: true }),
			[mean],
		)[0];
		expect(valueIn(found.standardError)).toBeCloseTo(0.4 / Math.sqrt(8), 10);
		expect(valueIn(found.predictionBandOfPoint).high - found.value).toBeCloseTo(
			1.959963984540054 * 0.4 * Math.sqrt(1 + 1 / 8),
			9,
		);
	});

	test("unequal sigmas leave the band of a new point unknown until its sigma is given", () => {
		const uneven = fitCurve(line, {
			x,
			y,
			sigmaY: x.map((v) => 0.1 * v),
			sigmaIsAbsolute: true,
		});
		expect(predict(uneven, [3])[0].predictionBandOfPoint).toEqual({
			is: "not known",
			because: expect.stringContaining("give sigmaNew"),
		});
		expect(
			predict(uneven, [3], { sigmaNew: 0.3 })[0].predictionBandOfPoint.is,
		).toBe("value");
	});

	test("outside the measured range it says that it extrapolates", () => {
		const flags = predict(straight, [0.99, 1, 8, 8.01]).map(
			(p) => p.extrapolating,
		);
		expect(flags.map((f) => f.holds)).toEqual([true, false, false, true]);
		expect(flags[3].reason).toContain(
			"8.01 lies outside the measured range, 1 to 8",
		);
	});

	test("without errors there is a value and a reason", () => {
		const [found] = predict(fitCurve(line, { x: [1, 2], y: [3, 5] }), [1.5]);
		expect(found.value).toBeCloseTo(4, 10);
		expect(found.confidenceBandOfCurve).toEqual({
			is: "not known",
			because: "2 points for 2 free parameters leave none to show the scatter",
		});
	});
});

describe("bands of a bent curve", () => {
	test("over 1500 trials: the curve's holds the truth, the point's a new point, each 95 % of the time", () => {
		const trials = 1500;
		let curve = 0;
		let point = 0;
		const truth = (200 * 0.02 * 60) / (1 + 0.02 * 60);
		for (let seed = 0; seed < trials; seed++) {
			const random = createRandom(seed);
			const y = tenDoses.map(
				(c) => (200 * 0.02 * c) / (1 + 0.02 * c) + 4 * random.normal(),
			);
			const [found] = predict(
				fitCurve(hyperbola, { x: tenDoses, y }, { start: { k: 0.03 } }),
				[60],
			);
			const a = valueIn(found.confidenceBandOfCurve);
			if (a.low <= truth && truth <= a.high) curve++;
			const b = valueIn(found.predictionBandOfPoint);
			const next = truth + 4 * random.normal();
			if (b.low <= next && next <= b.high) point++;
		}
		// Four binomial standard deviations either way.
		for (const share of [curve / trials, point / trials]) {
			expect(share).toBeGreaterThan(0.927);
			expect(share).toBeLessThan(0.973);
		}
	});
});
