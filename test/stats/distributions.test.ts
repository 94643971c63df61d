import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as stats from "../../kernel-lib/stats/index";
import { referenceJson, relativeError } from "./reference";

type Cases = { arguments: number[]; value: number }[];
const reference = referenceJson<Record<string, Cases>>("distributions.json");

const functions: Record<string, (...values: never[]) => number> = {
	normalCdf: stats.normalCdf,
	normalQuantile: stats.normalQuantile,
	studentTCdf: stats.studentTCdf,
	studentTQuantile: stats.studentTQuantile,
	chiSquareCdf: stats.chiSquareCdf,
	chiSquareUpperTail: stats.chiSquareUpperTail,
	chiSquareQuantile: stats.chiSquareQuantile,
	fCdf: stats.fCdf,
	fUpperTail: stats.fUpperTail,
	fQuantile: stats.fQuantile,
	noncentralTCdf: stats.noncentralTCdf,
	noncentralTUpperTail: stats.noncentralTUpperTail,
};

describe("distributions against values of 30 digits and more", () => {
	for (const [name, call] of Object.entries(functions)) {
		it(`${name} to 1e-12 relative`, () => {
			expect(reference[name].length).toBeGreaterThan(10);
			for (const { arguments: values, value } of reference[name]) {
				const found = call(...(values as never[]));
				expect(
					relativeError(found, value),
					`${name}(${values.join(", ")}) = ${found}, expected ${value}`,
				).toBeLessThan(1e-12);
			}
		});
	}
});

describe("laws of the distributions", () => {
	const df = fc.double({ min: 0.6, max: 1e7, noNaN: true });
	const p = fc.double({ min: 1e-10, max: 1 - 1e-10, noNaN: true });

	it("quantiles undo the distribution functions", () => {
		fc.assert(
			fc.property(
				p,
				df,
				fc.double({ min: 0.6, max: 300, noNaN: true }),
				(level, wide, narrow) => {
					expect(stats.normalCdf(stats.normalQuantile(level))).toBeCloseTo(
						level,
						13,
					);
					expect(
						stats.studentTCdf(stats.studentTQuantile(level, wide), wide),
					).toBeCloseTo(level, 12);
					expect(
						stats.chiSquareCdf(stats.chiSquareQuantile(level, narrow), narrow),
					).toBeCloseTo(level, 12);
					// The share that goes to the power wide / 2 is rounded in its last bit: so much of the answer is lost, however well it is computed.
					const back = stats.fCdf(
						stats.fQuantile(level, narrow, wide),
						narrow,
						wide,
					);
					expect(Math.abs(back - level)).toBeLessThan(
						5e-12 + (Number.EPSILON * wide) / 2,
					);
				},
			),
			{ numRuns: 200 },
		);
	});

	it("the square of a t is an F with one numerator degree of freedom", () => {
		fc.assert(
			fc.property(
				fc.double({ min: 0.01, max: 50, noNaN: true }),
				fc.double({ min: 0.6, max: 9e4, noNaN: true }),
				(t, nu) => {
					const p = stats.fUpperTail(t * t, 1, nu);
					// Below that a double has fewer digits than the comparison asks for.
					fc.pre(p > 1e-300);
					expect(relativeError(stats.studentTTwoSidedP(t, nu), p)).toBeLessThan(
						1e-11,
					);
				},
			),
		);
	});

	it("the expansion for many degrees of freedom meets the beta function where it takes over", () => {
		for (const t of [0.01, 0.8, 2, 6, 15]) {
			const before = stats.studentTCdf(-t, 100000);
			const after = stats.studentTCdf(-t, 100000 * (1 + 1e-15 * 100));
			expect(relativeError(after, before)).toBeLessThan(1e-11);
		}
	});

	it("central when the noncentrality is zero, normal when the degrees of freedom are infinite", () => {
		fc.assert(
			fc.property(fc.double({ min: -9, max: 9, noNaN: true }), df, (t, nu) => {
				expect(
					relativeError(
						stats.noncentralTCdf(t, nu, 0),
						stats.studentTCdf(t, nu),
					),
				).toBeLessThan(1e-10);
				expect(stats.studentTCdf(t, Number.POSITIVE_INFINITY)).toBeCloseTo(
					stats.normalCdf(t),
					15,
				);
				expect(
					stats.noncentralTCdf(t, Number.POSITIVE_INFINITY, 1.5),
				).toBeCloseTo(stats.normalCdf(t - 1.5), 14);
			}),
		);
	});

	it("takes the ends of its range, and says what it cannot take", () => {
		expect(stats.studentTQuantile(0, 3)).toBe(Number.NEGATIVE_INFINITY);
		expect(stats.studentTQuantile(0.5, 3)).toBe(0);
		expect(stats.chiSquareQuantile(1, 3)).toBe(Number.POSITIVE_INFINITY);
		expect(stats.studentTCdf(Number.NEGATIVE_INFINITY, 2)).toBe(0);
		expect(
			relativeError(
				stats.studentTCdf(-1e160, 0.5),
				stats.studentTCdf(-1e150, 0.5) * 1e-5,
			),
		).toBeLessThan(1e-12);
		expect(() => stats.normalQuantile(1.2)).toThrow(
			"found a probability of 1.2 for the normal quantile; expected a number from 0 to 1.",
		);
		expect(() => stats.studentTCdf(1, 0)).toThrow(
			"found 0 degrees of freedom for Student's t distribution; expected a number above 0",
		);
		expect(() => stats.normalCdf(Number.NaN)).toThrow("not a number");
	});
});
