import { describe, expect, test } from "vitest";
import {
	type BootstrapKind,
	bootstrap,
	fit as fitCurve,
	fitMany,
} from "../../kernel-lib/fit";
import { createRandom } from "../../kernel-lib/stats";
import { referenceData } from "../reference/check";
import { hold, trialsOf } from "../simulation/trials";
import {
	apart,
	closed,
	hyperbola,
	level,
	line,
	standardErrors,
	tenDoses,
	valueIn,
} from "./fixtures";

const kinds: readonly BootstrapKind[] = ["residual", "case", "parametric"];

const { meanBootstrap: check } = referenceData<{
	meanBootstrap: {
		values: number[];
		BCa: [number, number];
		percentile: [number, number];
	};
}>("fit-checks.json");

const at = Array.from({ length: 40 }, (_, i) => i);
const random = createRandom(11);
const points = { x: at, y: at.map((v) => 3 + 0.5 * v + random.normal()) };
const straight = fitCurve(line, points);

describe("bootstrap", () => {
	test("BCa and percentile intervals of a skewed mean, against SciPy's bootstrap", () => {
		const mean = fitCurve(level, {
			x: check.values.map((_, i) => i),
			y: check.values,
		});
		for (const interval of ["BCa", "percentile"] as const) {
			const found = bootstrap(mean, {
				kind: "case",
				interval,
				resamples: 200_000,
			});
			const { low, high } = valueIn(found.parameters[0].interval);
			// Monte Carlo error of either side is near 0.005.
			expect(Math.abs(closed(low) - check[interval][0])).toBeLessThan(0.025);
			expect(Math.abs(closed(high) - check[interval][1])).toBeLessThan(0.025);
		}
		// The two differ by far more than that, so one could not pass for the other.
		expect(check.BCa[1] - check.percentile[1]).toBeGreaterThan(0.3);
	});

	test.each(["residual", "parametric"] as const)(
		"%s: on a line it agrees with linear theory",
		(kind) => {
			const found = bootstrap(straight, { kind, resamples: 20_000 });
			found.parameters.forEach((p, j) => {
				const se = standardErrors(straight)[j];
				expect(Math.abs(valueIn(p.standardError) / se - 1)).toBeLessThan(0.03);
				expect(Math.abs(valueIn(p.bias))).toBeLessThan(0.05 * se);
			});
		},
	);

	test("case: on a line it agrees with the sandwich estimator, which trusts no equal errors", () => {
		// Errors that grow along x, which the ordinary standard error of the slope knows nothing of.
		const x = Array.from({ length: 200 }, (_, i) => i / 10);
		const random = createRandom(4);
		const y = x.map((v) => 3 + 0.5 * v + 0.02 * v * v * random.normal());
		const uneven = fitCurve(line, { x, y });
		const mean = x.reduce((s, v) => s + v, 0) / x.length;
		const spread = x.reduce((s, v) => s + (v - mean) ** 2, 0);
		const sandwich =
			Math.sqrt(
				x.reduce((s, v, i) => s + ((v - mean) * uneven.residuals[i]) ** 2, 0),
			) / spread;
		const found = bootstrap(uneven, { kind: "case", resamples: 20_000 });
		const se = valueIn(found.parameters[1].standardError);
		expect(Math.abs(se / sandwich - 1)).toBeLessThan(0.04);
		expect(Math.abs(se / standardErrors(uneven)[1] - 1)).toBeGreaterThan(0.1);
	});

	test.each(kinds)(
		"%s: the same seed gives the same interval, another does not",
		(kind) => {
			const ends = (seed: number): string =>
				JSON.stringify(
					bootstrap(straight, { kind, seed, resamples: 500 }).parameters,
				);
			expect(ends(7)).toBe(ends(7));
			expect(ends(7)).not.toBe(ends(8));
		},
	);

	test.each([
		["residual", "BCa"],
		["parametric", "percentile"],
		["case", "BCa"],
	] as const)(
		"%s, %s: over simulated trials the 95 %% interval holds the truth about as often",
		(kind, interval) => {
			let held = 0;
			const asked = 400;
			const trials = trialsOf(asked, 100);
			const x = Array.from({ length: 25 }, (_, i) => 4 * (i + 1));
			for (let seed = 0; seed < trials; seed++) {
				const random = createRandom(seed);
				const y = x.map(
					(c) => (100 * 0.05 * c) / (1 + 0.05 * c) + 3 * random.normal(),
				);
				const found = bootstrap(
					fitCurve(hyperbola, { x, y }, { start: { k: 0.03 } }),
					{ kind, interval, resamples: 400, seed },
				);
				const { low, high } = valueIn(found.parameters[1].interval);
				if (closed(low) <= 0.05 && 0.05 <= closed(high)) held++;
			}
			// A bootstrap of 25 points is known to be a little short; 400 trials scatter by 1.1 %.
			hold({
				simulation: "bootstrap",
				design: `${kind}, ${interval}, 25 points of a hyperbola`,
				what: "95 % interval holds the truth",
				hits: held,
				trials,
				asked,
				least: 0.89,
				most: 0.98,
			});
		},
	);

	test("residuals are widened by their leverage, or four points would look too sharp", () => {
		const x = [1, 2, 3, 4];
		const four = fitCurve(line, { x, y: [1.1, 1.9, 3.2, 3.8] });
		const wide = x.map(
			(v, i) => four.residuals[i] / Math.sqrt(1 - (0.25 + (v - 2.5) ** 2 / 5)),
		);
		const mean = wide.reduce((s, r) => s + r, 0) / 4;
		const drawn = Math.sqrt(wide.reduce((s, r) => s + (r - mean) ** 2, 0) / 4);
		const found = bootstrap(four, { resamples: 20_000 });
		expect(
			(valueIn(found.parameters[1].standardError) * Math.sqrt(5)) / drawn,
		).toBeCloseTo(1, 1);
		expect(drawn / Math.sqrt(four.residualSumOfSquares / 4)).toBeGreaterThan(
			1.2,
		);
	});

	test("residuals whose mean is not 0 are centred, or every resample would be pushed the same way", () => {
		// A line held through the origin under points that lie 2 above it at first.
		const held = fitCurve(
			line,
			{ x: at.slice(1), y: points.y.slice(1) },
			{ fixed: { a: 0 } },
		);
		const [slope] = bootstrap(held, { resamples: 20_000 }).parameters;
		expect(Math.abs(valueIn(slope.bias))).toBeLessThan(
			0.05 * valueIn(slope.standardError),
		);
	});

	test("with absolute sigmas a parametric bootstrap draws by them, whatever the scatter", () => {
		const calm = fitCurve(line, {
			...points,
			sigmaY: 5,
			sigmaIsAbsolute: true,
		});
		const found = bootstrap(calm, { kind: "parametric", resamples: 20_000 });
		expect(
			valueIn(found.parameters[1].standardError) / standardErrors(calm)[1],
		).toBeCloseTo(1, 1);
	});

	test("correlated errors are drawn as they are correlated", () => {
		const covarianceY = at.map((_, i) =>
			at.map((__, j) => 4 + (i === j ? 1 : 0)),
		);
		const common = fitCurve(line, {
			...points,
			covarianceY,
			sigmaIsAbsolute: true,
		});
		const found = bootstrap(common, { kind: "parametric", resamples: 20_000 });
		found.parameters.forEach((p, j) => {
			expect(valueIn(p.standardError) / standardErrors(common)[j]).toBeCloseTo(
				1,
				1,
			);
		});
	});

	test("the draws are there for a person's own use", () => {
		const found = bootstrap(straight, { resamples: 1000 });
		expect(found.draws.map((d) => d.length)).toEqual([1000, 1000]);
		expect(found.failed).toBe(0);
	});

	test("says why there is none", () => {
		const reasonOf = (fit: Parameters<typeof bootstrap>[0]): string => {
			const { interval } = bootstrap(fit).parameters[0];
			return interval.is === "not known" ? interval.because : "";
		};
		expect(reasonOf(fitCurve(line, { x: [1, 2], y: [1, 2] }))).toContain(
			"as many free parameters as points",
		);
		expect(reasonOf(fitCurve(line, points, { loss: "Huber" }))).toContain(
			"Huber",
		);
		expect(
			reasonOf(
				fitCurve(
					hyperbola,
					{ x: [1, 1, 1], y: [2, 2.1, 2.2] },
					{ start: { k: 1 } },
				),
			),
		).toContain("only a combination of q and k");
	});
});

describe("progress", () => {
	test.each([100, 250, 2000])(
		"of %i resamples is told at most 20 times, rising to 1",
		(resamples) => {
			const told: number[] = [];
			bootstrap(straight, { resamples, onProgress: (f) => told.push(f) });
			expect(told.length).toBe(20);
			expect(told).toEqual([...told].sort((a, b) => a - b));
			expect(told[0]).toBeGreaterThan(0);
			expect(told.at(-1)).toBe(1);
		},
	);

	test("does not change the draws", () => {
		const silent = bootstrap(straight, { resamples: 300 });
		const told = bootstrap(straight, { resamples: 300, onProgress: () => {} });
		expect(told.draws).toEqual(silent.draws);
	});

	test("of many fits is told too", () => {
		const told: number[] = [];
		fitMany(
			line,
			Array.from({ length: 7 }, () => points),
			{ onProgress: (f) => told.push(f) },
		);
		expect(told.at(-1)).toBe(1);
		expect(told.length).toBe(7);
	});
});

describe("many fits on the same points", () => {
	test("are the fits one by one", () => {
		const sets = Array.from({ length: 20 }, (_, seed) => {
			const random = createRandom(seed);
			return {
				x: tenDoses,
				y: tenDoses.map(
					(c) => (200 * 0.05 * c) / (1 + 0.05 * c) + 3 * random.normal(),
				),
			};
		});
		const many = fitMany(hyperbola, sets, { start: { k: 0.03 } });
		sets.forEach((set, i) => {
			const one = fitCurve(hyperbola, set, { start: { k: 0.03 } });
			expect(
				apart(
					many.values.map((v) => v[i]),
					one.theta,
				),
			).toBeLessThan(1e-6);
			expect(
				apart(
					many.standardErrors.map((v) => v[i]),
					standardErrors(one),
				),
			).toBeLessThan(1e-4);
			expect(many.converged[i]).toBe(1);
		});
	});
});
