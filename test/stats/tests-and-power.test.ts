import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as stats from "../../kernel-lib/stats/index";
import { referenceJson, referenceRows, relativeError } from "./reference";

interface TResult {
	diff: number;
	se: number;
	df: number;
	t: number;
	p: number;
	ci95: [number, number];
}
interface PowerCase {
	n: number;
	delta: number;
	sd: number;
	alpha: number;
	power: number;
	powerNonStrict: number;
	mdd80: number;
}
const reference = referenceJson<{
	data: Record<"control" | "A" | "B", number[]>;
	anova: { F: number; df1: number; df2: number; p: number };
	welchT_B_minus_C: TResult;
	pooledT_B_minus_C: TResult;
	pAdjust: { p: number[]; holm: number[] };
	power: PowerCase[];
	sampleSize: {
		delta: number;
		sd: number;
		alpha: number;
		n80: number;
		n90: number;
	};
}>("treatment-comparison.json");

/** What the inverse functions behind the references keep; the quantile itself is held to 1e-12 in distributions.test.ts. */
const QUANTILE_DIGITS = 1e-10;
/** The table of critical values has eight decimals. */
const TABLE_DIGITS = 1e-8;

describe("certified analyses of variance (NIST StRD)", () => {
	interface Certified {
		certified: Record<
			| "dfBetween"
			| "dfWithin"
			| "ssBetween"
			| "ssWithin"
			| "F"
			| "rSquared"
			| "residualSD",
			number
		>;
		data: number[][];
	}
	// SmLs04 and SmLs07 carry 7 and 13 constant leading digits: their stored decimals are rounded themselves, which limits what any double precision can reach
	for (const [name, tolerance] of [
		["SmLs01", 1e-13],
		["SiRstv", 1e-12],
		["AtmWtAg", 1e-8],
		["SmLs04", 1e-8],
		["SmLs07", 1e-4],
	] as [string, number][]) {
		it(`${name} to ${tolerance}`, () => {
			const { certified, data } = referenceJson<Certified>(
				`nist-anova/${name}.json`,
			);
			const found = stats.oneWayAnova(data);
			expect(found.degreesOfFreedomBetween).toBe(certified.dfBetween);
			expect(found.degreesOfFreedomWithin).toBe(certified.dfWithin);
			expect(relativeError(found.f, certified.F)).toBeLessThan(tolerance);
			expect(
				relativeError(found.sumOfSquaresBetween, certified.ssBetween),
			).toBeLessThan(tolerance);
			expect(
				relativeError(found.sumOfSquaresWithin, certified.ssWithin),
			).toBeLessThan(tolerance);
			expect(relativeError(found.rSquared, certified.rSquared)).toBeLessThan(
				tolerance,
			);
			expect(
				relativeError(found.residualStandardDeviation, certified.residualSD),
			).toBeLessThan(tolerance);
		});
	}
});

describe("tests against computed references", () => {
	const { control, A, B } = reference.data;

	it("analysis of variance of the 1955 blood counts", () => {
		const found = stats.oneWayAnova([control, A, B]);
		expect(relativeError(found.f, reference.anova.F)).toBeLessThan(1e-12);
		expect(relativeError(found.p, reference.anova.p)).toBeLessThan(1e-11);
	});

	it("Welch and pooled t tests", () => {
		for (const [found, expected] of [
			[stats.welchTTest(B, control), reference.welchT_B_minus_C],
			[stats.pooledTTest(B, control), reference.pooledT_B_minus_C],
		] as [stats.TTest, TResult][]) {
			expect(relativeError(found.difference, expected.diff)).toBeLessThan(
				1e-12,
			);
			expect(relativeError(found.standardError, expected.se)).toBeLessThan(
				1e-12,
			);
			expect(relativeError(found.degreesOfFreedom, expected.df)).toBeLessThan(
				1e-12,
			);
			expect(relativeError(found.t, expected.t)).toBeLessThan(1e-12);
			expect(relativeError(found.p, expected.p)).toBeLessThan(1e-10);
			expect(relativeError(found.interval[0], expected.ci95[0])).toBeLessThan(
				QUANTILE_DIGITS,
			);
			expect(relativeError(found.interval[1], expected.ci95[1])).toBeLessThan(
				QUANTILE_DIGITS,
			);
		}
	});

	it("Holm's adjustment, whatever the order", () => {
		const { p, holm } = reference.pAdjust;
		stats.holmAdjustedP(p).forEach((value, index) => {
			expect(value).toBeCloseTo(holm[index], 14);
		});
		const backwards = stats.holmAdjustedP([...p].reverse());
		backwards.reverse().forEach((value, index) => {
			expect(value).toBeCloseTo(holm[index], 14);
		});
	});

	it("critical values of Grubbs and Cochran to the eight digits that are given", () => {
		const rows = referenceRows("grubbs-cochran.csv");
		expect(rows.length).toBe(178);
		for (const { test, n_or_groups, reps, alpha, sided, critical } of rows) {
			const found =
				test === "grubbs"
					? stats.grubbsCriticalValue(
							Number(n_or_groups),
							Number(alpha),
							sided === "two" ? "two-sided" : "one-sided",
						)
					: stats.cochranCriticalValue(
							Number(n_or_groups),
							Number(reps),
							Number(alpha),
						);
			expect(
				Math.abs(found - Number(critical)),
				`${test} ${n_or_groups} ${reps} ${alpha} ${sided}`,
			).toBeLessThan(TABLE_DIGITS);
		}
	});

	it("power, detectable difference and sample size of the two-sided t test", () => {
		expect(reference.power.length).toBe(4);
		for (const {
			n,
			delta,
			sd,
			alpha,
			power,
			powerNonStrict,
			mdd80,
		} of reference.power) {
			const plan: stats.TwoGroupPlan = {
				standardDeviation: sd,
				confidence: 1 - alpha,
				alternative: "two-sided",
			};
			expect(
				relativeError(stats.tTestPower(plan, delta, n), power),
			).toBeLessThan(QUANTILE_DIGITS);
			expect(
				relativeError(stats.detectableDifference(plan, n, 0.8), mdd80),
			).toBeLessThan(QUANTILE_DIGITS);
			const upperOnly = stats.tTestPower(
				{ ...plan, confidence: 1 - alpha / 2, alternative: "greater" },
				delta,
				n,
			);
			expect(relativeError(upperOnly, powerNonStrict)).toBeLessThan(
				QUANTILE_DIGITS,
			);
		}
		const { delta, sd, alpha, n80, n90 } = reference.sampleSize;
		const plan: stats.TwoGroupPlan = {
			standardDeviation: sd,
			confidence: 1 - alpha,
			alternative: "two-sided",
		};
		expect(
			relativeError(stats.replicatesForPower(plan, delta, 0.8), n80),
		).toBeLessThan(QUANTILE_DIGITS);
		expect(
			relativeError(stats.replicatesForPower(plan, delta, 0.9), n90),
		).toBeLessThan(QUANTILE_DIGITS);
	});

	it("Welch-Satterthwaite: (0.010, 4), (0.015, 9), (0.020, exact) give 64.6923077 (computed with SciPy's arithmetic)", () => {
		const found = stats.welchSatterthwaite([
			{ uncertainty: 0.01, degreesOfFreedom: 4 },
			{ uncertainty: 0.015, degreesOfFreedom: 9 },
			{ uncertainty: 0.02, degreesOfFreedom: Number.POSITIVE_INFINITY },
		]);
		expect(relativeError(found, 64.6923077)).toBeLessThan(1e-9);
	});
});

describe("laws", () => {
	const number = fc.double({ min: -1e3, max: 1e3, noNaN: true });
	const sample = fc
		.array(number, { minLength: 3, maxLength: 12 })
		.filter((values) => stats.sampleVariance(values) > 1e-6);

	it("moving all observations moves the mean and nothing else, even by a million", () => {
		fc.assert(
			fc.property(
				fc.array(fc.integer({ min: -1000, max: 1000 }), {
					minLength: 3,
					maxLength: 12,
				}),
				(values) => {
					const moved = values.map((value) => value + 2 ** 40);
					expect(stats.mean(moved) - 2 ** 40).toBeCloseTo(
						stats.mean(values),
						3,
					);
					expect(stats.sampleVariance(moved)).toBeCloseTo(
						stats.sampleVariance(values),
						8,
					);
				},
			),
		);
	});

	it("variance is the covariance with itself, and the square of s", () => {
		fc.assert(
			fc.property(sample, (values) => {
				const variance = stats.sampleVariance(values);
				expect(
					relativeError(stats.sampleCovariance(values, values), variance),
				).toBeLessThan(1e-12);
				expect(
					relativeError(stats.sampleStandardDeviation(values) ** 2, variance),
				).toBeLessThan(1e-12);
			}),
		);
	});

	it("two groups: the F of the analysis of variance is the square of the pooled t, with the same p", () => {
		fc.assert(
			fc.property(sample, sample, (a, b) => {
				const { t, p } = stats.pooledTTest(a, b);
				const table = stats.oneWayAnova([a, b]);
				expect(Math.abs(table.f - t * t)).toBeLessThan(1e-9 * (1 + t * t));
				expect(table.p).toBeCloseTo(p, 9);
			}),
		);
	});

	it("a p-value and an interval agree: zero lies on the edge of the interval at level 1 - p", () => {
		fc.assert(
			fc.property(sample, sample, (a, b) => {
				const { p, difference, standardError } = stats.welchTTest(a, b);
				if (p < 1e-10 || p > 0.999) return;
				const { interval } = stats.welchTTest(a, b, 1 - p);
				expect(
					Math.min(Math.abs(interval[0]), Math.abs(interval[1])),
				).toBeLessThan(1e-5 * (Math.abs(difference) + standardError));
			}),
		);
	});

	it("Holm lies between p and Bonferroni and keeps the order", () => {
		fc.assert(
			fc.property(
				fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 9 }),
				(p) => {
					const adjusted = stats.holmAdjustedP(p);
					for (let i = 0; i < p.length; i++) {
						expect(adjusted[i]).toBeGreaterThanOrEqual(p[i]);
						expect(adjusted[i]).toBeLessThanOrEqual(
							Math.min(1, p.length * p[i]) + 1e-15,
						);
						for (let j = 0; j < p.length; j++)
							if (p[i] < p[j])
								expect(adjusted[i]).toBeLessThanOrEqual(adjusted[j]);
					}
				},
			),
		);
	});

	it("power is alpha where there is no difference and grows with difference and replicates", () => {
		const plan: stats.TwoGroupPlan = {
			standardDeviation: 3,
			confidence: 0.95,
			alternative: "two-sided",
		};
		expect(stats.tTestPower(plan, 0, 4)).toBeCloseTo(0.05, 12);
		expect(stats.tTestPower(plan, 5, 4)).toBeGreaterThan(
			stats.tTestPower(plan, 4, 4),
		);
		expect(stats.tTestPower(plan, 4, 5)).toBeGreaterThan(
			stats.tTestPower(plan, 4, 4),
		);
		expect(stats.tTestPower(plan, -4, 4)).toBeCloseTo(
			stats.tTestPower(plan, 4, 4),
			12,
		);
		const down: stats.TwoGroupPlan = { ...plan, alternative: "less" };
		expect(stats.tTestPower(down, -4, 4)).toBeCloseTo(
			stats.tTestPower({ ...plan, alternative: "greater" }, 4, 4),
			12,
		);
		expect(stats.replicatesForPower(plan, 1000, 0.8)).toBe(2);
	});
});

describe("error rates over seeds", () => {
	const families = 4000;
	const within = (rate: number, expected: number): void =>
		expect(Math.abs(rate - expected)).toBeLessThan(
			4 * Math.sqrt((expected * (1 - expected)) / families),
		);

	function shareOf(
		event: (random: stats.Random, family: number) => boolean,
	): number {
		let count = 0;
		for (let family = 0; family < families; family++)
			if (event(stats.createRandom("families").fork(family), family))
				count += 1;
		return count / families;
	}
	function normals(
		random: stats.Random,
		count: number,
		centre = 0,
		spread = 1,
	): Float64Array {
		const column = new Float64Array(count);
		random.fillNormal(column);
		return column.map((z) => centre + spread * z);
	}

	it("pooled t rejects at its rate, and finds a true difference as often as the power says", () => {
		within(
			shareOf(
				(random) =>
					stats.pooledTTest(normals(random, 4), normals(random, 4)).p < 0.05,
			),
			0.05,
		);
		const plan: stats.TwoGroupPlan = {
			standardDeviation: 1,
			confidence: 0.95,
			alternative: "two-sided",
		};
		within(
			shareOf(
				(random) =>
					stats.pooledTTest(normals(random, 4, 1.5), normals(random, 4)).p <
					0.05,
			),
			stats.tTestPower(plan, 1.5, 4),
		);
	});

	it("Welch's interval holds the true difference about as often as it says, with spreads 1 and 3", () => {
		const rate = shareOf((random) => {
			const { interval } = stats.welchTTest(
				normals(random, 6, 2, 3),
				normals(random, 5),
			);
			return interval[0] < 2 && interval[1] > 2;
		});
		expect(rate).toBeGreaterThan(0.935);
		expect(rate).toBeLessThan(0.965);
	});

	it("Grubbs suspects one clean sample in twenty, and the upper limit of s misses the truth as often", () => {
		within(
			shareOf((random) => stats.grubbsTest(normals(random, 8)).suspect),
			0.05,
		);
		within(
			shareOf(
				(random) =>
					stats.standardDeviationUpperLimit(
						stats.sampleStandardDeviation(normals(random, 5)),
						4,
					) < 1,
			),
			0.05,
		);
	});

	it("Cochran's C exceeds its critical value in one clean trial in twenty", () => {
		const critical = stats.cochranCriticalValue(5, 3, 0.05);
		const rate = shareOf((random) => {
			const variances = Array.from({ length: 5 }, () =>
				stats.sampleVariance(normals(random, 3)),
			);
			return (
				Math.max(...variances) /
					variances.reduce((sum, value) => sum + value, 0) >
				critical
			);
		});
		within(rate, 0.05);
	});
});

describe("edges and refusals", () => {
	it("Grubbs names the farthest observation and agrees with its own critical value", () => {
		const found = stats.grubbsTest([10.1, 10.2, 10.0, 12.9, 10.1]);
		expect(found.index).toBe(3);
		expect(found.suspect).toBe(true);
		expect(found.p < 0.05).toBe(true);
		expect(stats.grubbsTest([5, 5, 5])).toMatchObject({
			statistic: 0,
			suspect: false,
			p: 1,
		});
		expect(stats.grubbsTest([5, 5, 5, 5, 7]).suspect).toBe(true);
	});

	it("says what is missing", () => {
		expect(() => stats.mean([])).toThrow(
			"found 0 observations for a mean; expected at least 1. Give all observations",
		);
		expect(() => stats.sampleVariance([1])).toThrow(
			"found 1 observation for a sample variance; expected at least 2",
		);
		expect(() => stats.sampleVariance([1, Number.NaN])).toThrow(
			"found NaN as observation 2",
		);
		expect(() => stats.sampleCovariance([1, 2], [1, 2, 3])).toThrow(
			"2 and 3 observations for a covariance; expected pairs",
		);
		expect(() => stats.welchTTest([1, 1], [2, 2])).toThrow(
			"no scatter within the samples",
		);
		expect(() => stats.pooledTTest([1], [2])).toThrow(
			"no scatter within the samples",
		);
		expect(() => stats.oneWayAnova([[1], [2]])).toThrow(
			"no scatter within the groups",
		);
		expect(() => stats.oneWayAnova([[1, 2]])).toThrow(
			"found 1 group for a one-way analysis of variance; expected at least 2",
		);
		expect(() => stats.grubbsTest([1, 2])).toThrow("at least 3");
		expect(() => stats.holmAdjustedP([0.1, 1.1])).toThrow(
			"a probability of 1.1 for p-value 2",
		);
		const plan: stats.TwoGroupPlan = {
			standardDeviation: 1,
			confidence: 0.95,
			alternative: "greater",
		};
		expect(() => stats.replicatesForPower(plan, -1, 0.8)).toThrow(
			"in the direction of the alternative",
		);
		expect(() =>
			stats.tTestPower({ ...plan, standardDeviation: 0 }, 1, 3),
		).toThrow("a standard deviation of 0");
		expect(() => stats.detectableDifference(plan, 3, 0.01)).toThrow(
			"expected a power above 1 less the confidence",
		);
		expect(stats.welchSatterthwaite([])).toBe(Number.POSITIVE_INFINITY);
	});
});
