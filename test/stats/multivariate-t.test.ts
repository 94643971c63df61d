import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { blocksBelow } from "../../kernel-lib/stats/bounded-largest";
import {
	boxProbability,
	type CorrelationMatrix,
	createRandom,
	normalCdf,
	normalQuantile,
	simultaneousAdjustedP,
	simultaneousCriticalValue,
	simultaneousFamily,
	studentTCdf,
	studentTQuantile,
} from "../../kernel-lib/stats/index";
import { referenceJson, referenceRows, relativeError } from "./reference";

const INFINITE = Number.POSITIVE_INFINITY;

function product(l: readonly number[]): number[][] {
	return l.map((a, i) => l.map((b, j) => (i === j ? 1 : a * b)));
}

/** A full-rank correlation matrix without product form, from random directions. */
function randomCorrelation(size: number, seed: string): number[][] {
	const random = createRandom(seed);
	const rows = Array.from({ length: size }, () => {
		const row = Array.from({ length: size + 1 }, () => random.normal());
		const length = Math.hypot(...row);
		return row.map((value) => value / length);
	});
	return rows.map((a, i) =>
		rows.map((b, j) =>
			i === j ? 1 : a.reduce((sum, x, k) => sum + x * b[k], 0),
		),
	);
}

function box(count: number, d: number): [number[], number[]] {
	return [Array(count).fill(-d), Array(count).fill(d)];
}

function inside(correlation: CorrelationMatrix, df: number, d: number): number {
	return boxProbability(correlation, df, ...box(correlation.length, d)).inside;
}

describe("comparisons with one control, against references", () => {
	it("240 critical values to the seven decimals that are given", () => {
		const rows = referenceRows("dunnett-critical.csv");
		expect(rows.length).toBe(240);
		for (const { k, df, alpha, sided, d } of rows) {
			const correlation = product(Array(Number(k)).fill(Math.SQRT1_2));
			const found = simultaneousCriticalValue(
				correlation,
				df === "Inf" ? INFINITE : Number(df),
				Number(alpha),
				sided === "two" ? "two-sided" : "greater",
			);
			expect(
				Math.abs(found - Number(d)),
				`k ${k}, df ${df}, alpha ${alpha}, ${sided}`,
			).toBeLessThan(6e-8);
		}
	});

	it("the worked example of 1955, unequal groups: critical values and adjusted p", () => {
		interface Side {
			crit95: number;
			A: { t: number; p: number };
			B: { t: number; p: number };
		}
		const { expected } = referenceJson<{
			expected: {
				correlation: number;
				degreesOfFreedom: number;
				twoSided: Side;
			};
		}>("dunnett-example.json");
		const { greater } = referenceJson<{ greater: Side }>(
			"dunnett-example-one-sided.json",
		);
		const df = expected.degreesOfFreedom;
		const correlation = [
			[1, expected.correlation],
			[expected.correlation, 1],
		];
		for (const [alternative, side] of [
			["two-sided", expected.twoSided],
			["greater", greater],
		] as const) {
			expect(
				relativeError(
					simultaneousCriticalValue(correlation, df, 0.05, alternative),
					side.crit95,
				),
			).toBeLessThan(1e-9);
			const p = simultaneousAdjustedP(
				[side.A.t, side.B.t],
				correlation,
				df,
				alternative,
			);
			expect(relativeError(p[0], side.A.p)).toBeLessThan(1e-9);
			expect(relativeError(p[1], side.B.p)).toBeLessThan(1e-9);
		}
	});
});

describe("many comparisons, against references", () => {
	interface Case {
		readonly groups: readonly { count: number; a: number; b: number }[];
		readonly degreesOfFreedom: number | "Infinity";
		readonly criticalValue: number;
	}
	const { cases } = referenceJson<{ cases: Case[] }>("many-comparisons.json");
	const found = ({ groups, degreesOfFreedom }: Case) => {
		const members = groups.flatMap(
			(g) => Array(g.count).fill(g) as (typeof g)[],
		);
		const family = simultaneousFamily(
			members.map((x, i) =>
				members.map((y, j) => (i === j ? 1 : x.a * y.a + x.b * y.b)),
			),
			"two-sided",
		);
		const df = Number(degreesOfFreedom);
		const d = family.criticalValue(df, 0.05);
		const [p] = family.adjustedPs(
			members.map(() => d),
			members.map(() => df),
		);
		return { are: family.are, d, p };
	};

	it("with one control: as computed, up to 500", () => {
		for (const one of cases.filter((c) => c.groups.every((g) => g.b === 0))) {
			const { are, d, p } = found(one);
			expect(are).toBe("computed");
			expect(Math.abs(d - one.criticalValue)).toBeLessThan(1e-6);
			expect(p).toBeCloseTo(0.05, 8);
		}
	});

	it("of any correlations: never less than the value, and at most 4.5 % more", () => {
		const bounded = cases.filter((c) => c.groups.some((g) => g.b !== 0));
		expect(bounded).toHaveLength(4);
		for (const one of bounded) {
			const { are, d, p } = found(one);
			expect(are).toBe("bound");
			expect(d).toBeGreaterThan(one.criticalValue - 2e-6);
			expect(d).toBeLessThan(1.045 * one.criticalValue);
			expect(p).toBeCloseTo(0.05, 4);
		}
	});

	it("whatever the correlations, no bound is below one comparison's value or above Bonferroni's", () => {
		for (const [size, df] of [
			[31, 3],
			[70, 40],
		]) {
			const correlation = randomCorrelation(size, `wild ${size}`);
			const family = simultaneousFamily(correlation, "two-sided");
			const d = family.criticalValue(df, 0.05);
			expect(family.are).toBe("bound");
			expect(d).toBeGreaterThan(studentTQuantile(0.975, df));
			expect(d).toBeLessThan(studentTQuantile(1 - 0.025 / size, df));
			const share = simulatedInside(correlation, df, d, 4000);
			expect(share).toBeGreaterThan(0.95 - 4 * Math.sqrt((0.05 * 0.95) / 4000));
		}
	});

	it("30 without product form are computed, 31 get a bound", () => {
		const are = (size: number): string =>
			simultaneousFamily(randomCorrelation(size, "edge"), "two-sided").are;
		expect([are(30), are(31)]).toEqual(["computed", "bound"]);
	});

	it("the correlations of the bound are nowhere above those it stands for", () => {
		fc.assert(
			fc.property(fc.integer({ min: 3, max: 12 }), fc.nat(), (size, seed) => {
				const correlation = randomCorrelation(size, String(seed));
				const blocks = blocksBelow(correlation);
				expect(blocks.flatMap((b) => b.members).sort((a, b) => a - b)).toEqual([
					...correlation.keys(),
				]);
				for (const { members, coefficients: l } of blocks) {
					// whichever sign each coordinate was turned to, that of the first may stay
					members.forEach((i, k) => {
						for (let m = 0; m < k; m++)
							expect(l[k] * l[m]).toBeLessThanOrEqual(
								Math.abs(correlation[i][members[m]]) + 1e-12,
							);
					});
				}
			}),
			{ numRuns: 60 },
		);
	});
});

describe("laws of the multivariate t", () => {
	const df = fc.oneof(
		fc.double({ min: 1, max: 1e6, noNaN: true }),
		fc.constant(INFINITE),
	);
	const limit = fc.double({ min: 0.2, max: 6, noNaN: true });
	const coefficient = fc
		.double({ min: -0.95, max: 0.95, noNaN: true })
		.filter((l) => Math.abs(l) > 0.05);

	it("one coordinate is Student's t", () => {
		fc.assert(
			fc.property(df, limit, (nu, d) => {
				const { outside } = boxProbability([[1]], nu, [-d], [d]);
				expect(relativeError(outside, 2 * studentTCdf(-d, nu))).toBeLessThan(
					1e-10,
				);
				expect(boxProbability([[1]], nu, [-0.3 * d], [d]).inside).toBeCloseTo(
					studentTCdf(d, nu) - studentTCdf(-0.3 * d, nu),
					11,
				);
			}),
		);
	});

	it("tiny p-values keep their digits", () => {
		const [p] = simultaneousAdjustedP([60, 0], product([0.7, 0.7]), 8);
		expect(p).toBeGreaterThan(2 * studentTCdf(-60, 8));
		expect(p).toBeLessThan(4 * studentTCdf(-60, 8));
	});

	it("uncorrelated normals factorise, uncorrelated t do not", () => {
		const correlation = product([0, 0, 0]);
		for (const d of [0.5, 1.7, 3]) {
			expect(inside(correlation, INFINITE, d)).toBeCloseTo(
				(2 * normalCdf(d) - 1) ** 3,
				13,
			);
			expect(
				Math.abs(inside(correlation, 4, d) - (2 * studentTCdf(d, 4) - 1) ** 3),
			).toBeGreaterThan(1e-4);
		}
	});

	it("perfectly correlated coordinates collapse to one, the narrowest limits ruling", () => {
		for (const nu of [2.5, 20, INFINITE]) {
			const same = [
				[1, 1, 1],
				[1, 1, 1],
				[1, 1, 1],
			];
			expect(
				boxProbability(same, nu, [-2, -1, -3], [2, 1.5, 1.2]).inside,
			).toBeCloseTo(studentTCdf(1.2, nu) - studentTCdf(-1, nu), 11);
			const opposite = [
				[1, -1],
				[-1, 1],
			];
			expect(
				boxProbability(opposite, nu, [-2, -1], [2, 1.5]).inside,
			).toBeCloseTo(studentTCdf(1, nu) - studentTCdf(-1.5, nu), 11);
		}
	});

	it("approaches the collapse without a jump", () => {
		for (const rho of [0.99, 0.9999, 1 - 1e-8, 1 - 1e-11]) {
			const gap =
				2 * studentTCdf(2, 9) -
				1 -
				inside(
					[
						[1, rho],
						[rho, 1],
					],
					9,
					2,
				);
			expect(gap).toBeGreaterThan(0);
			expect(gap).toBeLessThan(0.2 * Math.sqrt(1 - rho));
		}
	});

	it("two normals in the positive quadrant: 1/4 + arcsin(rho)/(2 pi)", () => {
		for (const rho of [-0.99, -0.5, 0.1, 0.8, 0.9999]) {
			const quadrant = boxProbability(
				[
					[1, rho],
					[rho, 1],
				],
				INFINITE,
				[0, 0],
				[INFINITE, INFINITE],
			).inside;
			expect(quadrant).toBeCloseTo(0.25 + Math.asin(rho) / (2 * Math.PI), 10);
		}
	});

	it("three coordinates of any correlation in the positive octant: 1/8 + sum of arcsin(rho)/(4 pi), for every t as well", () => {
		for (const seed of ["a", "b", "c"]) {
			const correlation = randomCorrelation(3, seed);
			const angles =
				Math.asin(correlation[0][1]) +
				Math.asin(correlation[0][2]) +
				Math.asin(correlation[1][2]);
			for (const nu of [3, INFINITE]) {
				const octant = boxProbability(
					correlation,
					nu,
					[0, 0, 0],
					[INFINITE, INFINITE, INFINITE],
				);
				expect(
					Math.abs(octant.inside - (0.125 + angles / (4 * Math.PI))),
				).toBeLessThan(Math.max(2 * octant.error, 1e-10));
			}
		}
	});

	it("the order of the coordinates does not matter", () => {
		fc.assert(
			fc.property(
				fc.array(coefficient, { minLength: 2, maxLength: 5 }),
				df,
				limit,
				(l, nu, d) => {
					const upper = l.map((_, i) => d + 0.1 * i);
					const lower = upper.map((value) => -2 * value);
					const forward = boxProbability(product(l), nu, lower, upper).inside;
					const backward = boxProbability(
						product([...l].reverse()),
						nu,
						[...lower].reverse(),
						[...upper].reverse(),
					).inside;
					expect(backward).toBeCloseTo(forward, 9);
				},
			),
			{ numRuns: 40 },
		);
		const correlation = randomCorrelation(4, "order");
		const order = [2, 0, 3, 1];
		const forward = boxProbability(correlation, 7, ...box(4, 2.2));
		const permuted = boxProbability(
			order.map((i) => order.map((j) => correlation[i][j])),
			7,
			...box(4, 2.2),
		);
		expect(Math.abs(forward.inside - permuted.inside)).toBeLessThan(
			forward.error + permuted.error,
		);
	});

	it("wider limits hold more, and lie between the bounds of Bonferroni and of one comparison", () => {
		fc.assert(
			fc.property(
				fc.array(coefficient, { minLength: 2, maxLength: 5 }),
				df,
				limit,
				(l, nu, d) => {
					const correlation = product(l);
					const narrow = inside(correlation, nu, d);
					expect(inside(correlation, nu, d + 0.01)).toBeGreaterThan(narrow);
					expect(1 - narrow).toBeLessThanOrEqual(
						2 * l.length * studentTCdf(-d, nu) + 1e-12,
					);
					expect(1 - narrow).toBeGreaterThanOrEqual(
						2 * studentTCdf(-d, nu) - 1e-12,
					);
				},
			),
			{ numRuns: 40 },
		);
	});

	it("quasi-Monte Carlo agrees with quadrature where a tiny change takes the product form away", () => {
		for (const [l, nu, d] of [
			[[0.7, 0.6, 0.65, 0.75, 0.5], 20, 2.7],
			[[0.9, -0.4, 0.3, 0.2], 3, 1.5],
			[[0.8, 0.8, 0.8, 0.8, 0.8, 0.8, 0.8, 0.8], INFINITE, 2.4],
		] as [number[], number, number][]) {
			const exact = boxProbability(product(l), nu, ...box(l.length, d));
			const bent = product(l);
			bent[0][1] += 1e-9;
			bent[1][0] += 1e-9;
			const estimated = boxProbability(bent, nu, ...box(l.length, d));
			expect(exact.method).toBe("product-form quadrature");
			expect(estimated.method).toBe("quasi-Monte Carlo");
			expect(Math.abs(estimated.inside - exact.inside)).toBeLessThan(1e-8);
		}
	});

	it("quasi-Monte Carlo agrees with plain simulation of matrices far from product form", () => {
		for (const [size, nu, seed] of [
			[3, 5, "x"],
			[5, 20, "y"],
			[6, INFINITE, "z"],
		] as [number, number, string][]) {
			const correlation = randomCorrelation(size, seed);
			const { inside: found, error } = boxProbability(
				correlation,
				nu,
				...box(size, 1.8),
			);
			expect(error).toBeLessThan(7e-5);
			const trials = 100_000;
			const share = simulatedInside(correlation, nu, 1.8, trials);
			expect(Math.abs(share - found)).toBeLessThan(
				4 * Math.sqrt((found * (1 - found)) / trials),
			);
		}
	});

	it("all pairs of three equal groups: a singular matrix, the studentized range over root two", () => {
		// upper 5 % points of the studentized range, 3 groups: 3.876777 (10 df), 3.314493 (infinite df), computed with SciPy
		const pairs = [
			[1, 0.5, -0.5],
			[0.5, 1, 0.5],
			[-0.5, 0.5, 1],
		];
		expect(simultaneousCriticalValue(pairs, 10, 0.05, "two-sided")).toBeCloseTo(
			3.876777 / Math.SQRT2,
			3,
		);
		expect(
			simultaneousCriticalValue(pairs, INFINITE, 0.05, "two-sided"),
		).toBeCloseTo(3.314493 / Math.SQRT2, 3);
	});

	it("blocks that are uncorrelated are treated exactly, given the common S", () => {
		const correlation = [
			[1, 0.5, 0, 0],
			[0.5, 1, 0, 0],
			[0, 0, 1, 0.3],
			[0, 0, 0.3, 1],
		];
		const normal = boxProbability(correlation, INFINITE, ...box(4, 2));
		expect(normal.method).toBe("product-form quadrature");
		expect(normal.inside).toBeCloseTo(
			inside(
				[
					[1, 0.5],
					[0.5, 1],
				],
				INFINITE,
				2,
			) *
				inside(
					[
						[1, 0.3],
						[0.3, 1],
					],
					INFINITE,
					2,
				),
			12,
		);
		const share = simulatedInside(correlation, 5, 2, 100_000);
		expect(Math.abs(share - inside(correlation, 5, 2))).toBeLessThan(
			4 * Math.sqrt(0.15 / 100_000),
		);
	});
});

describe("critical values and adjusted p-values", () => {
	it("one comparison needs no adjustment", () => {
		expect(
			simultaneousCriticalValue([[1]], 7.3, 0.05, "two-sided"),
		).toBeCloseTo(studentTQuantile(0.975, 7.3), 12);
		expect(simultaneousAdjustedP([2.2], [[1]], 7.3)[0]).toBeCloseTo(
			2 * studentTCdf(-2.2, 7.3),
			12,
		);
	});

	it("the p-value at the critical value is alpha, also without product form", () => {
		const general = randomCorrelation(4, "critical");
		for (const [correlation, digits] of [
			[product([0.7, 0.5, 0.6]), 9],
			[general, 4],
		] as [number[][], number][]) {
			for (const alternative of ["two-sided", "greater", "less"] as const) {
				const d = simultaneousCriticalValue(correlation, 14, 0.05, alternative);
				const t = Array(correlation.length).fill(
					alternative === "less" ? -d : d,
				);
				expect(
					simultaneousAdjustedP(t, correlation, 14, alternative)[0],
				).toBeCloseTo(0.05, digits);
			}
		}
	});

	it("directions mirror each other", () => {
		const correlation = product([0.7, 0.5, 0.6]);
		const up = simultaneousAdjustedP([2, -1, 0.3], correlation, 9, "greater");
		const down = simultaneousAdjustedP([-2, 1, -0.3], correlation, 9, "less");
		expect([...up]).toEqual([...down]);
	});

	it("smaller alpha and fewer degrees of freedom ask for more", () => {
		const correlation = product([0.7, 0.7, 0.7, 0.7]);
		const d = (df: number, alpha: number): number =>
			simultaneousCriticalValue(correlation, df, alpha, "two-sided");
		expect(d(10, 0.01)).toBeGreaterThan(d(10, 0.05));
		expect(d(1, 0.05)).toBeGreaterThan(d(2, 0.05));
		expect(d(1e9, 0.05)).toBeCloseTo(d(INFINITE, 0.05), 7);
	});

	it("holds the family-wise error rate over seeds: about 5 % of simulated families exceed the critical value", () => {
		const correlation = randomCorrelation(4, "family");
		const d = simultaneousCriticalValue(correlation, 6, 0.05, "two-sided");
		const families = 100_000;
		const rate = 1 - simulatedInside(correlation, 6, d, families);
		expect(Math.abs(rate - 0.05)).toBeLessThan(
			4 * Math.sqrt((0.05 * 0.95) / families),
		);
	});

	it("says what is wrong with a matrix", () => {
		const call = (correlation: number[][]) => () =>
			simultaneousCriticalValue(correlation, 5, 0.05, "two-sided");
		expect(call([])).toThrow("an empty correlation matrix");
		expect(
			call([
				[1, 0.5],
				[0.4, 1],
			]),
		).toThrow("found 0.5 in row 1, column 2");
		expect(call([[1, 0.5]])).toThrow(
			"found 2 entries in row 1 of the correlation matrix; expected 1",
		);
		expect(call([[2]])).toThrow("expected 1");
		const impossible = [
			[1, 0.9, -0.9],
			[0.9, 1, 0.9],
			[-0.9, 0.9, 1],
		];
		expect(call(impossible)).toThrow("not positive semidefinite");
		expect(() => boxProbability([[1]], 5, [2], [1])).toThrow(
			"limits of 2 and 1 for coordinate 1",
		);
		expect(() => simultaneousAdjustedP([1, 2], [[1]], 5)).toThrow(
			"2 statistics and 1 rows",
		);
	});
});

/** Share of simulated vectors within +-d: normals by a plain Cholesky factor, over a chi from summed or inverted squares. */
function simulatedInside(
	correlation: CorrelationMatrix,
	df: number,
	d: number,
	trials: number,
): number {
	const size = correlation.length;
	const factor = correlation.map(() => new Float64Array(size));
	for (let i = 0; i < size; i++) {
		for (let j = 0; j <= i; j++) {
			let sum = correlation[i][j];
			for (let k = 0; k < j; k++) sum -= factor[i][k] * factor[j][k];
			factor[i][j] = i === j ? Math.sqrt(sum) : sum / factor[j][j];
		}
	}
	const random = createRandom("simulation");
	let count = 0;
	for (let trial = 0; trial < trials; trial++) {
		const z = Array.from({ length: size }, () => random.normal());
		let square = 0;
		for (let k = 0; k < df && df < INFINITE; k++)
			square += random.normal() ** 2;
		const s = df < INFINITE ? Math.sqrt(square / df) : 1;
		if (
			factor.every(
				(row) =>
					Math.abs(row.reduce((sum, l, k) => sum + l * (z[k] ?? 0), 0)) <=
					d * s,
			)
		)
			count += 1;
	}
	return count / trials;
}

it("normal quantile and probability are consistent with the box of one", () => {
	expect(
		boxProbability([[1]], INFINITE, [-INFINITE], [normalQuantile(0.3)]).inside,
	).toBeCloseTo(0.3, 14);
});
