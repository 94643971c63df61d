import { describe, expect, test } from "vitest";
import {
	bootstrap,
	defineModel,
	fit as fitCurve,
	fitShared,
	fitTable,
	parameterTable,
	pointTable,
	predict,
	profileIntervals,
} from "../../kernel-lib/fit";
import { referenceData } from "../reference/check";
import { apart, closed, hyperbola, standardErrors, valueIn } from "./fixtures";

const { sharedHyperbola: check } = referenceData<{
	sharedHyperbola: {
		sets: { name: string; x: number[]; y: number[] }[];
		k: number;
		q: number[];
		standardErrorK: number;
		standardErrorsQ: number[];
		rss: number;
	};
}>("fit-checks.json");

const { sets } = check;
const shared = fitShared(hyperbola, sets, {
	shared: ["k"],
	start: { k: 0.03 },
});

/** The same fit built by hand: one curve over all points, the set as a second predictor. */
const byHand = fitCurve(
	defineModel({
		name: "all three",
		predictors: 2,
		parameters: ["k", "q0", "q1", "q2"],
		evaluate: (p, x, out) => {
			const n = out.length;
			for (let i = 0; i < n; i++)
				out[i] = (p[1 + x[n + i]] * p[0] * x[i]) / (1 + p[0] * x[i]);
		},
	}),
	{
		x: [sets.flatMap((s) => s.x), sets.flatMap((s, i) => s.x.map(() => i))],
		y: sets.flatMap((s) => s.y),
	},
	{ start: { k: 0.03 } },
);

describe("several data sets with a parameter in common", () => {
	test("give what SciPy gives for all points at once", () => {
		for (const [i, one] of shared.sets.entries()) {
			expect(apart(one.theta, [check.q[i], check.k])).toBeLessThan(1e-6);
			expect(
				apart(standardErrors(one), [
					check.standardErrorsQ[i],
					check.standardErrorK,
				]),
			).toBeLessThan(1e-5);
		}
		expect(shared.combined.residualSumOfSquares / check.rss).toBeCloseTo(1, 9);
	});

	test("are the fit that one would build by hand, intervals included", () => {
		const value = (name: string): number =>
			shared.combined.parameters.find((p) => p.name === name)?.value ??
			Number.NaN;
		expect(
			apart(
				["k", "q [first]", "q [second]", "q [third]"].map(value),
				byHand.theta,
			),
		).toBeLessThan(1e-8);
		expect(shared.combined.degreesOfFreedom).toBe(26);
		const ends = (all: ReturnType<typeof profileIntervals>, name: string) => {
			const found = all.find((p) => p.name === name);
			if (found === undefined) throw new Error(name);
			const { low, high } = valueIn(found.interval);
			return [closed(low), closed(high)];
		};
		const a = profileIntervals(shared.combined);
		const b = profileIntervals(byHand);
		expect(apart(ends(a, "k"), ends(b, "k"))).toBeLessThan(1e-6);
		expect(apart(ends(a, "q [third]"), ends(b, "q2"))).toBeLessThan(1e-6);
	});

	test("sharing narrows what a set by itself leaves wide", () => {
		const alone = fitCurve(hyperbola, sets[2], { start: { k: 0.03 } });
		expect(standardErrors(shared.sets[2])[1]).toBeLessThan(
			0.8 * standardErrors(alone)[1],
		);
	});

	test("nothing shared is each set by itself, with the scatter of all", () => {
		const none = fitShared(hyperbola, sets, {
			shared: [],
			start: { k: 0.03 },
		});
		for (const [i, one] of none.sets.entries()) {
			const alone = fitCurve(hyperbola, sets[i], { start: { k: 0.03 } });
			expect(apart(one.theta, alone.theta)).toBeLessThan(1e-8);
			expect(one.residualSumOfSquares).toBeCloseTo(
				alone.residualSumOfSquares,
				8,
			);
		}
	});

	test("start values, fixed values and limits may name one set", () => {
		const held = fitShared(hyperbola, sets, {
			shared: ["k"],
			start: { k: 0.03 },
			fixed: { "q [second]": 170 },
			upper: { "q [third]": 100 },
		});
		expect(held.sets[1].theta[0]).toBe(170);
		expect(held.sets[1].parameters[0].role).toBe("fixed");
		expect(held.sets[2].theta[0]).toBe(100);
		expect(held.sets[2].parameters[0].limit).toBe("at its upper limit");
		expect(held.sets[0].parameters[0].role).toBe("free");
	});

	test("one set predicts with the errors of all; all together cannot", () => {
		const [first] = predict(shared.sets[0], [60]);
		const own = predict(byHand, [[60], [0]])[0];
		expect(valueIn(first.standardError)).toBeCloseTo(
			valueIn(own.standardError),
			8,
		);
		expect(() => predict(shared.combined, [60])).toThrow(/Take one of `sets`/);
	});

	test("one set cannot be resampled or profiled alone, and says so", () => {
		for (const { interval } of [
			...profileIntervals(shared.sets[0]),
			...bootstrap(shared.sets[0]).parameters,
		])
			expect(interval).toEqual({
				is: "not known",
				because: expect.stringContaining("take the combined fit"),
			});
	});

	test("their tables bind with those of a single fit", () => {
		const alone = fitCurve(hyperbola, sets[0], { start: { k: 0.03 } });
		for (const table of [parameterTable, pointTable, fitTable]) {
			const columns = Object.keys(table(alone)[0]);
			for (const row of table(alone, ...shared.sets, shared.combined))
				expect(Object.keys(row)).toEqual(columns);
		}
		expect(pointTable(shared.combined).map((r) => r.set)).toEqual(
			sets.flatMap((s) => s.x.map(() => s.name)),
		);
	});

	test("errors of y are kept for each set", () => {
		const sigmas = [3, 6, 1.5];
		const withErrors = sets.map((s, i) => ({
			...s,
			sigmaY: sigmas[i],
			sigmaIsAbsolute: true,
		}));
		const a = fitShared(hyperbola, withErrors, {
			shared: ["k"],
			start: { k: 0.03 },
		});
		const asCovariance = withErrors.map(({ sigmaY, ...s }) => ({
			...s,
			covarianceY: s.x.map((_, i) =>
				s.x.map((__, j) => (i === j ? sigmaY ** 2 : 0)),
			),
		}));
		const b = fitShared(hyperbola, asCovariance, {
			shared: ["k"],
			start: { k: 0.03 },
		});
		expect(apart(a.combined.theta, b.combined.theta)).toBeLessThan(1e-8);
		const rss = a.sets.reduce((s, one) => s + one.residualSumOfSquares, 0);
		expect(a.combined.residualSumOfSquares / rss).toBeCloseTo(1, 10);
		expect(apart(a.combined.theta, shared.combined.theta)).toBeGreaterThan(
			1e-4,
		);
	});
});
