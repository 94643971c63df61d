import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
	adaptiveMonteCarlo,
	compareWithFirstOrder,
	cosineOf,
	type Evidence,
	exactRatio,
	exponentialOf,
	input,
	meanOf,
	minus,
	monteCarlo,
	monteCarloTrials,
	naturalLog,
	normal,
	numericalTolerance,
	ProblemError,
	per,
	plus,
	type Quantity,
	raised,
	rectangular,
	scaled,
	stated,
	times,
	triangular,
} from "../../kernel-lib/quantity/index";
import { uptakeOf } from "./example-chain";

function ratio(
	value: number,
	evidence: Evidence,
	symbol: string,
): Quantity<"ratio"> {
	return input("ratio", value, "1", evidence, {
		symbol,
		source: stated("invented"),
	});
}

describe("linear models", () => {
	test("mean and standard uncertainty agree with first order within their own sampling error, over many seeds", () => {
		const model = plus(
			ratio(3, normal(0.5), "a"),
			scaled(ratio(2, rectangular(1), "b"), -2),
			ratio(1, triangular(2), "c"),
		);
		const trials = 20_000;
		const seeds = 60;
		let meanOutside = 0;
		let spreadOutside = 0;
		for (let seed = 0; seed < seeds; seed++) {
			const t = monteCarlo(model, { trials, seed });
			const u = model.standardUncertainty;
			if (Math.abs(t.mean - model.value) > (1.96 * u) / Math.sqrt(trials))
				meanOutside += 1;
			// Kurtosis of this sum is below normal, so the bound is wide enough.
			if (
				Math.abs(t.standardUncertainty / u - 1) >
				1.96 / Math.sqrt(2 * trials)
			)
				spreadOutside += 1;
		}
		// 5 in 100 expected: 3 of 60; 10 or more has a probability below 0.001.
		expect(meanOutside).toBeLessThan(10);
		expect(spreadOutside).toBeLessThan(10);
		// And the seeds do differ.
		expect(monteCarlo(model, { trials, seed: 1 }).mean).not.toBe(
			monteCarlo(model, { trials, seed: 2 }).mean,
		);
	});

	test("what cancels in first order cancels in every trial", () => {
		const a = uptakeOf(2).uptake;
		const [zero] = monteCarloTrials([minus(a, a)], { trials: 1000 });
		expect(Math.max(...zero.map(Math.abs))).toBeLessThan(1e-12);
	});
});

test("blocks compute what single evaluations would: every operation, against trials of its inputs", () => {
	const a = ratio(2, normal(0.1), "a");
	const b = ratio(3, rectangular(0.2), "b");
	const c = ratio(1.5, normal(0.05, 9), "c");
	const formulas: [Quantity, (x: number, y: number, z: number) => number][] = [
		[plus(a, b, exactRatio(2), c), (x, y, z) => x + y + 2 + z],
		[minus(scaled(a, 3), b), (x, y) => 3 * x - y],
		[minus(exactRatio(7), a), (x) => 7 - x],
		[plus(a, scaled(a, -0.5)), (x) => 0.5 * x],
		[meanOf([a, b, c, a]), (x, y, z) => (2 * x + y + z) / 4],
		[times(plus(a, exactRatio(1)), scaled(b, -2)), (x, y) => (x + 1) * -2 * y],
		[times(a, a), (x) => x * x],
		[
			per(minus(a, b), plus(c, exactRatio(0.5))),
			(x, y, z) => (x - y) / (z + 0.5),
		],
		[per(exactRatio(5), b), (_x, y) => 5 / y],
		[per(a, exactRatio(4)), (x) => x / 4],
		[raised(plus(a, b), 0.2), (x, y) => (x + y) ** 0.2],
		[naturalLog(per(a, b)), (x, y) => Math.log(x / y)],
		[exponentialOf(minus(c, a)), (x, _y, z) => Math.exp(z - x)],
		[cosineOf(times(b, c)), (_x, y, z) => Math.cos(y * z)],
		[exactRatio(3), () => 3],
	];
	// A number of trials that is no multiple of the block.
	for (const sampling of ["random", "sobol"] as const) {
		const [x, y, z, ...results] = monteCarloTrials(
			[a, b, c, ...formulas.map(([q]) => q)],
			{ trials: 2500, sampling },
		);
		formulas.forEach(([, f], k) => {
			for (let i = 0; i < 2500; i++)
				expect(results[k][i]).toBeCloseTo(f(x[i], y[i], z[i]), 10);
		});
	}
});

describe("intervals", () => {
	test("limits are order statistics of the trials, as a full sort finds them", () => {
		fc.assert(
			fc.property(
				fc.integer({ min: 200, max: 5000 }),
				fc.constantFrom(0.9, 0.95, 0.683),
				fc.integer(),
				(trials, confidence, seed) => {
					const skewed = exponentialOf(ratio(0, normal(0.8), "x"));
					const options = { trials, confidence, seed };
					const t = monteCarlo(skewed, options);
					const sorted = monteCarloTrials([skewed], options)[0].slice().sort();
					const inside = Math.floor(confidence * trials + 0.5);
					const first = Math.max(0, Math.floor((trials - inside + 1) / 2) - 1);
					expect(t.symmetric.lower).toBe(sorted[first]);
					expect(t.symmetric.upper).toBe(
						sorted[Math.min(trials - 1, first + inside)],
					);
					let width = Number.POSITIVE_INFINITY;
					for (let r = 0; r + inside < trials; r++)
						width = Math.min(width, sorted[r + inside] - sorted[r]);
					expect(t.shortest.upper - t.shortest.lower).toBeCloseTo(width, 12);
				},
			),
			{ numRuns: 40 },
		);
	});

	test("the shortest interval of a skewed result lies to the left of the symmetric one", () => {
		const t = monteCarlo(exponentialOf(ratio(0, normal(0.8), "x")), {
			trials: 100_000,
		});
		expect(t.shortest.lower).toBeLessThan(t.symmetric.lower);
		expect(t.shortest.upper).toBeLessThan(t.symmetric.upper);
		expect(t.symmetric.lower).toBeCloseTo(Math.exp(-1.96 * 0.8), 1);
	});

	test("units are those of the result", () => {
		const q = uptakeOf(2).uptake;
		const inGrams = q.to("g/g");
		const options = { trials: 10_000 };
		expect(monteCarlo(inGrams, options).symmetric.upper * 1000).toBeCloseTo(
			monteCarlo(q, options).symmetric.upper,
			8,
		);
	});
});

describe("low-discrepancy sequence", () => {
	/** Root mean square error of the limits over seeds, in the unit of the result. */
	const error = (
		q: Quantity,
		truth: number,
		trials: number,
		sampling: "random" | "sobol",
	): number => {
		let squares = 0;
		for (let seed = 1; seed <= 12; seed++) {
			const { lower, upper } = monteCarlo(q, {
				trials,
				sampling,
				seed,
			}).symmetric;
			squares += (lower + truth) ** 2 + (upper - truth) ** 2;
		}
		return Math.sqrt(squares / 24);
	};

	test("normal inputs: a tenth of the trials gives limits three times as accurate, and more", () => {
		const sum = plus(
			ratio(0, normal(1), "a"),
			ratio(0, normal(0.6), "b"),
			scaled(ratio(0, normal(0.5), "c"), -1),
		);
		// 1.96 u, exactly.
		const truth = 1.959963984540054 * sum.standardUncertainty;
		expect(3 * error(sum, truth, 4096, "sobol")).toBeLessThan(
			error(sum, truth, 40_960, "random"),
		);
	});

	test("four rectangular inputs: a quarter of the trials gives limits as accurate", () => {
		const [a, b, c, d] = ["a", "b", "c", "d"].map((s) =>
			ratio(0, rectangular(Math.sqrt(3)), s),
		);
		// JCGM 101:2008, 9.2.3: 2 sqrt(3) (2 - (3/5)^(1/4)).
		const truth = 3.879406741347821;
		const sum = plus(a, b, c, d);
		expect(error(sum, truth, 16_384, "sobol")).toBeLessThan(
			error(sum, truth, 65_536, "random"),
		);
	});

	test("an exact result has no coordinates to draw", () => {
		const t = monteCarlo(exactRatio(3), { trials: 1000, sampling: "sobol" });
		expect(t.mean).toBe(3);
		expect(t.standardUncertainty).toBe(0);
		expect(t.symmetric).toEqual({ lower: 3, upper: 3 });
	});
});

describe("first order or Monte Carlo", () => {
	test("four rectangular inputs: good enough to two digits", () => {
		const sum = plus(
			...(["a", "b", "c", "d"].map((s) =>
				ratio(0, rectangular(Math.sqrt(3)), s),
			) as [Quantity<"ratio">]),
		);
		const t = compareWithFirstOrder(sum);
		expect(t.tolerance).toBeCloseTo(0.05, 12);
		expect(t.agrees).toBe(true);
	});

	test("a square near zero: not good enough, and the text says so", () => {
		const x = ratio(0.2, normal(1), "x");
		const t = compareWithFirstOrder(times(x, x));
		expect(t.agrees).toBe(false);
		expect(t.text).toContain("not good enough");
	});

	test.each([
		[0.91, 2, 0.005],
		[0.91, 1, 0.05],
		[2, 2, 0.05],
		[2, 1, 0.5],
		[123, 2, 5],
		[0.0996, 2, 0.005],
	] as const)(
		"half a unit in the last place of %d with %d digits is %d",
		(u, digits, expected) => {
			expect(numericalTolerance(u, digits)).toBeCloseTo(expected, 12);
		},
	);
});

describe("adaptive number of trials", () => {
	test("goes on until the limits stand still", () => {
		const q = uptakeOf(2).uptake;
		const one = adaptiveMonteCarlo(q, { digits: 1 });
		const two = adaptiveMonteCarlo(q);
		expect(one.stable && two.stable).toBe(true);
		expect(two.result.trials).toBeGreaterThan(one.result.trials);
		const again = adaptiveMonteCarlo(q, { seed: 99 });
		expect(
			Math.abs(again.result.symmetric.upper - two.result.symmetric.upper),
		).toBeLessThan(2 * two.tolerance);
	});
});

describe("what the reader must know", () => {
	test("an input from three readings has no variance", () => {
		const few = input("mass", 1, "g", normal(0.1, 2), {
			symbol: "m",
			meaning: "mass from three readings",
		});
		const t = monteCarlo(few, { trials: 10_000 });
		expect(t.notes[0]).toContain("has no variance");
		expect(t.notes[0]).toContain("mass from three readings");
		// The interval is that of Student's t, 4.30 for 2 degrees of freedom.
		const long = monteCarlo(few, { trials: 1_000_000 });
		expect((long.symmetric.upper - 1) / 0.1).toBeCloseTo(4.303, 1);
	});

	test("few trials are called few", () => {
		const t = monteCarlo(ratio(0, normal(1), "x"), { trials: 1000 });
		expect(t.notes.join()).toContain("advises 200000");
	});

	test.each([
		[
			{ trials: 199 },
			/199 trials; expected a whole number of trials from 200 on/,
		],
		[{ confidence: 95 }, /above 0 and below 1/],
		[{ sampling: "latin" as "sobol" }, /"random", "sobol"/],
		[
			{ level: 0.9 } as never,
			/the option "level", which monteCarlo does not have/,
		],
	])("%o is refused", (options, message) => {
		expect(() => monteCarlo(ratio(0, normal(1), "x"), options)).toThrow(
			message,
		);
		expect(() => monteCarlo(ratio(0, normal(1), "x"), options)).toThrow(
			ProblemError,
		);
	});

	test("200 trials are the fewest for 95 %: ten beyond the interval", () => {
		expect(monteCarlo(ratio(0, normal(1), "x"), { trials: 200 }).trials).toBe(
			200,
		);
	});

	test("an adaptive run refuses a third digit and a confidence that it cannot reach", () => {
		const x = ratio(0, normal(1), "x");
		expect(() => adaptiveMonteCarlo(x, { digits: 3 as 2 })).toThrow(/1 or 2/);
		expect(() => compareWithFirstOrder(x, { confidence: 0.99999 })).toThrow(
			/lower confidence/,
		);
	});

	test("a trial that is no number is refused, not averaged", () => {
		expect(() =>
			monteCarlo(naturalLog(ratio(0.5, normal(1), "x")), { trials: 10_000 }),
		).toThrow(/not a number/);
	});
});
