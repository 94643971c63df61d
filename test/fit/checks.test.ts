import { describe, expect, test } from "vitest";
import { checkFit, fit as fitCurve } from "../../kernel-lib/fit";
import { shapiroWilk } from "../../kernel-lib/fit/shapiro-wilk";
import { createRandom } from "../../kernel-lib/stats";
import { referenceData } from "../reference/check";
import { apart, hyperbola, level, line, tenDoses, valueIn } from "./fixtures";

const { shapiroWilk: shapiro, lackOfFitLine } = referenceData<{
	shapiroWilk: { samples: { values: number[]; w: number; p: number }[] };
	lackOfFitLine: { x: number[]; y: number[]; f: number; p: number };
}>("fit-checks.json");

describe("lack of fit", () => {
	test("of a line through replicates: F and p as numpy and SciPy give them", () => {
		const { x, y, f, p } = lackOfFitLine;
		const found = valueIn(checkFit(fitCurve(line, { x, y })).lackOfFit);
		expect(found.statistic / f).toBeCloseTo(1, 10);
		expect(found.p / p).toBeCloseTo(1, 8);
	});

	test("sigmas weigh the scatter of replicates as they weigh the fit", () => {
		const { x, y, f } = lackOfFitLine;
		const one = checkFit(
			fitCurve(line, { x, y, sigmaY: 7, sigmaIsAbsolute: false }),
		);
		expect(valueIn(one.lackOfFit).statistic / f).toBeCloseTo(1, 9);
	});

	test("is not computed without replicates, nor without room", () => {
		const none = checkFit(fitCurve(line, { x: [1, 2, 3], y: [1, 2.1, 2.9] }));
		expect(none.lackOfFit).toEqual({
			is: "not known",
			because: "no two points have the same x, so there are no replicates",
		});
		const tight = checkFit(
			fitCurve(line, { x: [1, 1, 2, 2], y: [1, 1.2, 2, 2.1] }),
		);
		expect(tight.lackOfFit).toMatchObject({
			is: "not known",
			because: expect.stringContaining("2 different x for 2 free parameters"),
		});
		const exact = checkFit(
			fitCurve(line, { x: [1, 1, 2, 2, 3, 3], y: [1, 1, 2, 2, 2, 2] }),
		);
		expect(exact.lackOfFit).toMatchObject({
			is: "not known",
			because: expect.stringContaining("agree exactly"),
		});
	});

	test("raises a false alarm 5 % of the time, and finds a wrong curve", () => {
		const x = tenDoses.flatMap((c) => [c, c]);
		const trials = 1000;
		let falseAlarms = 0;
		let found = 0;
		for (let seed = 0; seed < trials; seed++) {
			const random = createRandom(seed);
			const y = x.map(
				(c) => (200 * 0.02 * c) / (1 + 0.02 * c) + 5 * random.normal(),
			);
			const right = fitCurve(hyperbola, { x, y }, { start: { k: 0.03 } });
			if (valueIn(checkFit(right).lackOfFit).p < 0.05) falseAlarms++;
			const wrong = fitCurve(line, { x, y });
			if (valueIn(checkFit(wrong).lackOfFit).p < 0.05) found++;
		}
		// Four binomial standard deviations.
		expect(Math.abs(falseAlarms / trials - 0.05)).toBeLessThan(0.028);
		expect(found / trials).toBeGreaterThan(0.95);
	});
});

describe("chi-square", () => {
	test("of absolute errors: a sum of squares against its degrees of freedom", () => {
		const x = [1, 2, 3, 4, 5, 6];
		const y = [1, -1, 1, -1, 1, -1].map((r, i) => i + 1 + r);
		const found = valueIn(
			checkFit(fitCurve(level, { x, y: y, sigmaY: 2, sigmaIsAbsolute: true }))
				.chiSquare,
		);
		const mean = y.reduce((s, v) => s + v, 0) / 6;
		const sum = y.reduce((s, v) => s + ((v - mean) / 2) ** 2, 0);
		expect(found.statistic).toBeCloseTo(sum, 10);
		// Upper tail with 5 degrees of freedom: erfc(sqrt(s/2)) + sqrt(2 s/pi) exp(-s/2) (1 + s/3).
		const tail =
			2 * upperNormal(Math.sqrt(sum)) +
			Math.sqrt((2 * sum) / Math.PI) * Math.exp(-sum / 2) * (1 + sum / 3);
		expect(found.p).toBeCloseTo(tail, 7);
	});

	test("speaks of too much and too little scatter", () => {
		const x = Array.from({ length: 20 }, (_, i) => i);
		const random = createRandom(5);
		const y = x.map((v) => v + random.normal());
		const meaning = (sigmaY: number): string =>
			valueIn(
				checkFit(fitCurve(line, { x, y, sigmaY, sigmaIsAbsolute: true }))
					.chiSquare,
			).meaning;
		expect(meaning(0.3)).toContain("scatter more");
		expect(meaning(1)).toContain("agrees");
		expect(meaning(5)).toContain("scatter less");
		expect(checkFit(fitCurve(line, { x, y })).chiSquare).toMatchObject({
			is: "not known",
			because: "the errors of the points were not given as absolute",
		});
	});
});

/** Upper tail of the normal distribution by Simpson's rule. */
function upperNormal(z: number): number {
	const steps = 2000;
	const h = (z + 12 - z) / steps;
	let sum = 0;
	for (let i = 0; i <= steps; i++) {
		const u = z + i * h;
		const weight = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
		sum += weight * Math.exp((-u * u) / 2);
	}
	return (sum * h) / 3 / Math.sqrt(2 * Math.PI);
}

describe("runs", () => {
	/** P(runs <= r) by counting every arrangement. */
	function byCounting(signs: readonly boolean[]): number {
		const runsOf = (s: readonly boolean[]): number =>
			1 + s.slice(1).filter((v, i) => v !== s[i]).length;
		const plus = signs.filter((s) => s).length;
		let few = 0;
		let all = 0;
		for (let bits = 0; bits < 2 ** signs.length; bits++) {
			const arrangement = signs.map((_, i) => ((bits >> i) & 1) === 1);
			if (arrangement.filter((s) => s).length !== plus) continue;
			all++;
			if (runsOf(arrangement) <= runsOf(signs)) few++;
		}
		return few / all;
	}

	test.each(["+-+-+-+-", "++++----", "+++-----", "+--+++--++", "-+++++++++"])(
		"p of %s is its share of all arrangements",
		(pattern) => {
			const signs = [...pattern].map((s) => s === "+");
			// A level of 0 fits these points, since each sign gets as much weight as the other.
			const plus = signs.filter((s) => s).length;
			const y = signs.map((s) => (s ? 1 / plus : -1 / (signs.length - plus)));
			// Given in another order than that of x, which must not matter.
			const order = signs.map((_, i) => (7 * i + 3) % signs.length);
			const x =
				new Set(order).size === signs.length ? order : signs.map((_, i) => i);
			const found = fitCurve(level, { x, y: x.map((i) => y[i]) });
			const test = valueIn(checkFit(found).runs);
			expect(test.p).toBeCloseTo(byCounting(signs), 10);
			expect(test.statistic).toBe(
				1 + signs.slice(1).filter((v, i) => v !== signs[i]).length,
			);
		},
	);

	test("a straight line through a bent curve leaves few runs", () => {
		const y = tenDoses.map((c) => (200 * 0.02 * c) / (1 + 0.02 * c));
		const test = valueIn(checkFit(fitCurve(line, { x: tenDoses, y })).runs);
		expect(test.p).toBeLessThan(0.05);
		expect(test.meaning).toContain("another shape");
	});

	test("has nothing to say where all residuals have one sign or none", () => {
		const exact = checkFit(fitCurve(line, { x: [1, 2, 3], y: [0, 0, 0] }));
		expect(exact.runs).toMatchObject({ is: "not known" });
	});
});

describe("normality", () => {
	test.each(shapiro.samples.map((s) => [s.values.length, s] as const))(
		"Shapiro-Wilk of %i values, against SciPy",
		(_, { values, w, p }) => {
			const found = valueIn(shapiroWilk(values));
			expect(found.w / w).toBeCloseTo(1, 6);
			expect(Math.abs(found.p - p)).toBeLessThan(1e-5 + 1e-4 * p);
		},
	);

	test("is that of the standardised residuals", () => {
		const { x, y } = lackOfFitLine;
		const fit = fitCurve(line, { x, y });
		const direct = valueIn(shapiroWilk(valueIn(fit.standardisedResiduals)));
		expect(valueIn(checkFit(fit).normality).p).toBe(direct.p);
	});

	test("refuses fewer than 3 values and equal ones", () => {
		expect(shapiroWilk([1, 2])).toMatchObject({ is: "not known" });
		expect(shapiroWilk([2, 2, 2, 2])).toMatchObject({ is: "not known" });
	});
});

describe("leverage and standardised residuals", () => {
	const x = [1, 2, 3, 4, 12];
	const y = [2.2, 3.9, 6.3, 7.8, 24.5];

	test("of a line are 1/n + (x - mean)^2 / Sxx", () => {
		const fit = fitCurve(line, { x, y });
		const mean = 4.4;
		const spread = x.reduce((s, v) => s + (v - mean) ** 2, 0);
		const expected = x.map((v) => 1 / 5 + (v - mean) ** 2 / spread);
		expect(apart(valueIn(fit.leverage), expected)).toBeLessThan(1e-10);
		const sd = Math.sqrt(fit.residualSumOfSquares / 3);
		expect(
			apart(
				valueIn(fit.standardisedResiduals),
				expected.map((h, i) => fit.residuals[i] / (sd * Math.sqrt(1 - h))),
			),
		).toBeLessThan(1e-9);
	});

	test("sum to the number of free parameters, whatever the curve and the errors", () => {
		const y = tenDoses.map((c) => (200 * 0.05 * c) / (1 + 0.05 * c) + (c % 3));
		const start = { k: 0.03 };
		for (const errors of [
			{},
			{ sigmaY: tenDoses.map((c) => 1 + c / 10), sigmaIsAbsolute: true },
			{
				covarianceY: tenDoses.map((_, i) =>
					tenDoses.map((__, j) => 9 + (i === j ? 4 : 0)),
				),
				sigmaIsAbsolute: true,
			},
		]) {
			const fit = fitCurve(hyperbola, { x: tenDoses, y, ...errors }, { start });
			const total = valueIn(fit.leverage).reduce((s, h) => s + h, 0);
			expect(total).toBeCloseTo(2, 9);
		}
	});
});
