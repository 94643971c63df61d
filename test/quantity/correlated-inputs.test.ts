import { describe, expect, test } from "vitest";
import {
	correlatedInputs,
	correlation,
	monteCarloTrials,
} from "../../kernel-lib/quantity/index";

describe("correlated inputs", () => {
	const correlations = [
		[1, 0.8, -0.3],
		[0.8, 1, 0.1],
		[-0.3, 0.1, 1],
	];
	const [a, b, c] = correlatedInputs(
		[
			{
				kind: "mass",
				value: 2,
				unit: "g",
				standardUncertainty: 0.1,
				symbol: "a",
				meaning: "a",
			},
			{
				kind: "volume",
				value: 5,
				unit: "mL",
				standardUncertainty: 0.2,
				symbol: "b",
				meaning: "b",
			},
			{
				kind: "mass",
				value: 1,
				unit: "g",
				standardUncertainty: 0.3,
				symbol: "c",
				meaning: "c",
			},
		],
		correlations,
		"invented",
	);

	test("values, uncertainties and correlations come back", () => {
		expect([a, b, c].map((q) => q.value)).toEqual([2, 5, 1]);
		expect(a.standardUncertainty).toBeCloseTo(0.1, 14);
		expect(b.standardUncertainty).toBeCloseTo(0.2, 14);
		expect(c.standardUncertainty).toBeCloseTo(0.3, 14);
		expect(correlation(a, b)).toBeCloseTo(0.8, 12);
		expect(correlation(a, c)).toBeCloseTo(-0.3, 12);
		expect(correlation(b, c)).toBeCloseTo(0.1, 12);
	});

	test("Monte Carlo sees the correlation too", () => {
		const [x, y] = monteCarloTrials([a, b], { trials: 100_000 });
		const mean = (v: Float64Array): number =>
			v.reduce((s, t) => s + t, 0) / v.length;
		const [mx, my] = [mean(x), mean(y)];
		let covariance = 0;
		for (let i = 0; i < x.length; i++) covariance += (x[i] - mx) * (y[i] - my);
		expect(covariance / x.length / (0.1 * 0.2)).toBeCloseTo(0.8, 1);
	});

	test("correlations that contradict each other are refused", () => {
		expect(() =>
			correlatedInputs(
				["a", "b", "c"].map((symbol) => ({
					kind: "mass" as const,
					value: 1,
					unit: "g" as const,
					standardUncertainty: 1,
					symbol,
					meaning: symbol,
				})),
				[
					[1, 0.9, -0.9],
					[0.9, 1, 0.9],
					[-0.9, 0.9, 1],
				],
				"invented",
			),
		).toThrow(/contradict/);
	});
});
