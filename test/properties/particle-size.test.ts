import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as properties from "../../kernel-lib/properties/index";
import {
	correlation,
	plus,
	type Quantity,
} from "../../kernel-lib/quantity/index";
import { normalCdf, normalQuantile } from "../../kernel-lib/stats/index";
import { known, sieving, told, weighed } from "./made";

const openings = [2, 1, 0.5, 0.25, 0.125];
const fractions = fc
	.array(fc.integer({ min: 0, max: 5000 }), { minLength: 6, maxLength: 6 })
	.filter((m) => m.some((x) => x > 0))
	.map((m) => m.map((x) => x / 100));

describe("laws", () => {
	test("shares add up to one; what passes falls from sieve to sieve", () => {
		fc.assert(
			fc.property(fractions, (m) => {
				const sizes = properties.particleSizes(
					sieving(
						openings.map((d, i) => [d, m[i]]),
						m[5],
					),
				);
				const sum = sizes.classes.reduce((s, c) => s + c.share.in("1"), 0);
				expect(sum).toBeCloseTo(1, 12);
				const passing = sizes.passing.map((p) => p.share.in("1"));
				for (let i = 1; i < passing.length; i++)
					expect(passing[i]).toBeLessThanOrEqual(passing[i - 1] + 1e-12);
			}),
		);
	});

	test("the order of the sieves changes nothing", () => {
		fc.assert(
			fc.property(
				fractions,
				fc.shuffledSubarray([0, 1, 2, 3, 4], { minLength: 5 }),
				(m, order) => {
					const pairs = openings.map((d, i) => [d, m[i]] as const);
					const of = (list: typeof pairs): unknown => {
						const s = properties.particleSizes(sieving(list, m[5]));
						return [
							s.classes.map((c) => [c.name, c.share.value]),
							[
								s.effectiveSize,
								s.sixtyPercentSize,
								s.uniformityCoefficient,
								s.meanDiameter,
							].map((o) =>
								o.is === "not known" ? o : [o.is, o.quantity.value],
							),
						];
					};
					expect(of(order.map((i) => pairs[i]))).toEqual(of(pairs));
				},
			),
		);
	});

	test("twice the mass on every sieve changes nothing; d10 is no larger than d60", () => {
		fc.assert(
			fc.property(fractions, (m) => {
				const sizes = (factor: number): properties.ParticleSizes =>
					properties.particleSizes(
						sieving(
							openings.map((d, i) => [d, m[i] * factor]),
							m[5] * factor,
						),
					);
				const [once, twice] = [sizes(1), sizes(2)];
				expect(twice.effectiveSize.is).toBe(once.effectiveSize.is);
				const [d10, d60] = [once.effectiveSize, once.sixtyPercentSize];
				if (d10.is !== "value" || d60.is !== "value") return;
				expect(told(twice.effectiveSize, "mm")).toBeCloseTo(told(d10, "mm"), 9);
				expect(told(d10, "mm")).toBeLessThanOrEqual(told(d60, "mm") + 1e-12);
				expect(told(once.uniformityCoefficient, "1")).toBeCloseTo(
					told(d60, "mm") / told(d10, "mm"),
					9,
				);
			}),
		);
	});
});

describe("sizes", () => {
	test("straight in ln d between the two sieves", () => {
		// 20 % passes 1 mm, 0 % passes 0.5 mm: 10 % lies half way in the logarithm.
		const sizes = properties.particleSizes(
			sieving(
				[
					[2, 0],
					[1, 80],
					[0.5, 20],
				],
				0,
			),
		);
		expect(told(sizes.effectiveSize, "mm")).toBeCloseTo(Math.SQRT1_2, 12);
		// 100 % passes 2 mm, 20 % passes 1 mm: 60 % is half way.
		expect(told(sizes.sixtyPercentSize, "mm")).toBeCloseTo(Math.SQRT2, 12);
		expect(told(sizes.uniformityCoefficient, "1")).toBeCloseTo(2, 12);
		// 0.8 × 1.5 + 0.2 × 0.75
		expect(told(sizes.meanDiameter, "mm")).toBeCloseTo(1.35, 12);
	});

	test("a size beyond the sieves is a limit, and the uniformity coefficient with it", () => {
		const fine = properties.particleSizes(
			sieving(
				[
					[2, 0],
					[1, 60],
					[0.5, 20],
				],
				20,
			),
		);
		expect(fine.effectiveSize).toMatchObject({
			is: "at most",
			because: "more than 10 % of the mass passes the finest sieve",
		});
		expect(fine.uniformityCoefficient.is).toBe("at least");
		expect(fine.cautions.join(" ")).toContain("20 % is in the pan");
		const coarse = properties.particleSizes(
			sieving(
				[
					[2, 50],
					[1, 45],
				],
				5,
			),
		);
		expect(coarse.sixtyPercentSize.is).toBe("at least");
		expect(coarse.meanDiameter.is).toBe("at least");
		const all = properties.particleSizes(
			sieving(
				[
					[2, 0],
					[1, 30],
				],
				70,
			),
		);
		expect(all.uniformityCoefficient).toMatchObject({ is: "not known" });
	});

	test("what is missing after sieving is said; what is too much is refused", () => {
		const s = sieving(
			[
				[2, 0],
				[1, 60],
			],
			20,
		);
		expect(
			properties
				.particleSizes({ ...s, sample: known("mass", 90, "g") })
				.cautions.join(" "),
		).toContain("11.1 % of the sample is missing");
		expect(
			properties
				.particleSizes({ ...s, sample: known("mass", 80.5, "g") })
				.cautions.some((c) => c.includes("missing")),
		).toBe(false);
		expect(() =>
			properties.particleSizes({ ...s, sample: known("mass", 70, "g") }),
		).toThrow(/80 g on the sieves together, of 70 g put on them/);
	});

	test("one sieve, one sieve twice, nothing on any, a negative mass", () => {
		expect(() => properties.particleSizes(sieving([[1, 5]], 5))).toThrow(
			/at least two sieves/,
		);
		expect(() =>
			properties.particleSizes(
				sieving(
					[
						[1, 5],
						[1, 5],
					],
					5,
				),
			),
		).toThrow(/two sieves of 1 mm/);
		expect(() =>
			properties.particleSizes(
				sieving(
					[
						[2, 0],
						[1, 0],
					],
					0,
				),
			),
		).toThrow(/0 g on all sieves together/);
		expect(() =>
			properties.particleSizes(
				sieving(
					[
						[2, -1],
						[1, 4],
					],
					0,
				),
			),
		).toThrow(/−1 g on a sieve/);
	});
});

test("what the straight line misses of grains with normally distributed logarithms is in the uncertainty", () => {
	for (const median of [0.55, 0.7, 1, 1.3])
		for (const spread of [0.25, 0.4, 0.6]) {
			const sieves = [4, 2.8, 2, 1.4, 1, 0.71, 0.5, 0.355, 0.25, 0.18, 0.125];
			const below = (d: number): number =>
				normalCdf(Math.log(d / median) / spread);
			const sizes = properties.particleSizes(
				sieving(
					sieves.map((d, i) => [
						d,
						100 * ((i === 0 ? 1 : below(sieves[i - 1])) - below(d)),
					]),
					100 * below(0.125),
				),
			);
			const d10 = sizes.effectiveSize;
			if (d10.is !== "value") throw new Error("a limit");
			const truth = median * Math.exp(spread * normalQuantile(0.1));
			const { value, standardUncertainty } = d10.quantity.to("mm");
			// The half-width of a rectangular error is √3 standard uncertainties; to first order in the logarithm.
			expect(Math.abs(Math.log(truth / value))).toBeLessThan(
				(Math.sqrt(3) * standardUncertainty) / value + 1e-3,
			);
			expect(standardUncertainty / value).toBeLessThan(0.06);
		}
});

describe("decisions of ours, on both sides", () => {
	const of = (pan: number, sample: number): readonly string[] =>
		properties.particleSizes({
			...sieving(
				[
					[2, 0],
					[1, 100 - pan],
				],
				pan,
			),
			sample: known("mass", sample, "g"),
		}).cautions;
	test("1 % of the sample may be missing after sieving, or be too much", () => {
		expect(of(5, 100 / 0.991)).toEqual([]);
		expect(of(5, 100 / 0.989).join()).toContain("is missing");
		expect(of(5, 100 / 1.009)).toEqual([]);
		expect(() => of(5, 100 / 1.011)).toThrow(/on the sieves together/);
	});
	test("up to a tenth may be in the pan", () => {
		expect(of(9.9, 100)).toEqual([]);
		expect(of(10.1, 100).join()).toContain("10 % is in the pan");
	});
});

describe("a sieve that is left out", () => {
	const sizes = (leftOut: boolean) =>
		properties.particleSizes({
			sieves: [
				[2, 0],
				[1, 30],
				[0.7, 50],
				[0.5, 20],
			].map(([opening, mass]) => ({
				opening: known("length", opening, "mm"),
				retained: known("mass", mass, "g"),
				leftOut: leftOut && opening === 0.7,
			})),
			pan: known("mass", 0, "g"),
		});
	test("what stayed on it counts with the next finer sieve; the other cuts stay", () => {
		expect(sizes(true).classes.map((c) => [c.name, c.share.in("%")])).toEqual([
			["on 2 mm", 0],
			["on 1 mm", 30],
			["on 0.5 mm", expect.closeTo(70, 9)],
			["pan", 0],
		]);
		expect(sizes(true).passing.map((p) => p.share.in("%"))).toEqual(
			sizes(false)
				.passing.filter((p) => p.opening.in("mm") !== 0.7)
				.map((p) => p.share.in("%")),
		);
	});
	test("the finest counts with the pan; one sieve in use is too few", () => {
		const { sieves, pan } = sieving(
			[
				[2, 0],
				[1, 60],
				[0.5, 30],
			],
			10,
		);
		const without = (...openings: readonly number[]) =>
			properties.particleSizes({
				sieves: sieves.map((s) => ({
					...s,
					leftOut: openings.includes(s.opening.in("mm")),
				})),
				pan,
			});
		expect(without(0.5).classes[2].share.in("%")).toBeCloseTo(40, 9);
		expect(() => without(2, 1)).toThrow(/found 1 sieve; expected at least two/);
	});
});

describe("sieves have errors of their own", () => {
	const one = (shift: number): Quantity<"length"> => {
		const outcome = properties.particleSizes({
			sieves: [
				[2, 0],
				[1, 80 - shift],
				[0.5, 20 + shift],
			].map(([d, m]) => ({
				opening: properties.sieveOpening(d),
				retained: weighed(m),
			})),
			pan: weighed(0),
		}).effectiveSize;
		if (outcome.is !== "value") throw new Error("a limit");
		return outcome.quantity;
	};
	test("two chars on one set of sieves share them", () => {
		expect(one(0).standardUncertainty).toBeGreaterThan(0.01);
		expect(correlation(one(0), one(1))).toBeGreaterThan(0.99);
		expect(plus(one(0), one(0)).standardUncertainty).toBeCloseTo(
			2 * one(0).standardUncertainty,
			9,
		);
	});
	test("the tolerance of 1 mm is that of the formula, and no sieve has an opening of 0", () => {
		expect(properties.sieveOpening(1).standardUncertainty).toBeCloseTo(
			(1000 ** 0.98 / 27 + 1.6) / 1000 / Math.sqrt(3),
			9,
		);
		expect(() => properties.sieveOpening(0)).toThrow(/above 0 mm/);
	});
});
