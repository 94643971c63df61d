import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
	correlation,
	covariance,
	exact,
	expandedUncertainty,
	input,
	meanOf,
	minus,
	normal,
	per,
	plus,
	type Quantity,
	scaled,
	sharedErrors,
	times,
} from "../../kernel-lib/quantity/index";
import { cell, uptakeOf } from "./example-chain";

const mass = (x: number, u: number): Quantity<"mass"> =>
	input("mass", x, "g", normal(u), {});
const number = fc.double({ min: 0.5, max: 5, noNaN: true });

describe("correlation", () => {
	test("x minus x is zero without uncertainty", () => {
		const x = mass(3, 0.2);
		const zero = minus(x, x);
		expect(zero.value).toBe(0);
		expect(zero.standardUncertainty).toBe(0);
		expect(per(x, x).standardUncertainty).toBe(0);
	});

	test("two equal but independent values add in quadrature", () => {
		const difference = minus(mass(3, 0.2), mass(3, 0.2));
		expect(difference.standardUncertainty).toBeCloseTo(0.2 * Math.SQRT2, 14);
	});

	test("one cell read twice is one error, one number typed twice is two", () => {
		const read = (): Quantity<"mass"> =>
			input("mass", 3, "g", normal(0.2), {
				symbol: "m",
				source: cell(2, "mass (g)"),
			});
		expect(minus(read(), read()).standardUncertainty).toBe(0);
		const typed = (): Quantity<"mass"> =>
			input("mass", 3, "g", normal(0.2), { symbol: "m" });
		expect(minus(typed(), typed()).standardUncertainty).toBeGreaterThan(0.28);
	});

	test("the titrant's error cancels in the difference of two uptakes", () => {
		const a = uptakeOf(2).uptake;
		const b = uptakeOf(3).uptake;
		const difference = minus(a, b);
		const together = Math.hypot(a.standardUncertainty, b.standardUncertainty);
		expect(difference.standardUncertainty).toBeLessThan(0.8 * together);
		// The same from covariance: u^2(a - b) = u^2(a) + u^2(b) - 2 cov.
		expect(difference.standardUncertainty ** 2).toBeCloseTo(
			together ** 2 - 2 * covariance(a, b),
			10,
		);
		expect(correlation(a, b)).toBeGreaterThan(0.4);
		expect(correlation(a, b)).toBeCloseTo(correlation(b, a), 14);
	});

	test("own and shared parts make up every variance and covariance", () => {
		const results = [2, 3, 4].map((row) => uptakeOf(row).uptake);
		const { ownVariance, shared } = sharedErrors(results);
		for (let i = 0; i < 3; i++)
			for (let j = 0; j < 3; j++) {
				const sum = shared.reduce(
					(total, s) => total + s.effect[i] * s.effect[j],
					i === j ? ownVariance[i] : 0,
				);
				expect(sum).toBeCloseTo(covariance(results[i], results[j]), 10);
			}
		// Shared are the two titrants and the burette, and nothing else: no dense matrix.
		expect(shared.map((s) => s.node.name.symbol).sort()).toEqual([
			"c_{I2}",
			"c_{thio}",
			"δ_{burette}",
		]);
	});
});

test("first order agrees with perturbed recomputation on random chains", () => {
	fc.assert(
		fc.property(number, number, number, number, (a, b, c, d) => {
			const u = 1e-6;
			const chain = (da = 0, db = 0, dc = 0): Quantity => {
				const x = mass(a + da, u);
				const y = mass(b + db, 2 * u);
				const z = mass(c + dc, 3 * u);
				return times(
					per(plus(scaled(x, d), minus(y, scaled(x, 0.25))), z),
					meanOf([per(x, z), per(y, z), per(x, y)]),
				);
			};
			const q = chain();
			const numeric = Math.hypot(
				chain(u).value - q.value,
				chain(0, 2 * u).value - q.value,
				chain(0, 0, 3 * u).value - q.value,
			);
			expect(q.standardUncertainty / numeric).toBeCloseTo(1, 4);
		}),
	);
});

describe("expanded uncertainty", () => {
	test("k is the normal quantile where every uncertainty is taken as known", () => {
		const e = expandedUncertainty(mass(10, 0.5));
		expect(e.coverageFactor).toBeCloseTo(1.959963985, 8);
		expect(e.upper - e.lower).toBeCloseTo(2 * e.halfWidth, 12);
	});

	test("k is Student's t for one type A input", () => {
		const e = expandedUncertainty(input("mass", 10, "g", normal(0.5, 4), {}));
		expect(e.degreesOfFreedom).toBeCloseTo(4, 12);
		// Tabulated t, two-sided 95 %, 4 degrees of freedom.
		expect(e.coverageFactor).toBeCloseTo(2.776445, 6);
	});

	test("a coverage probability outside 0 to 1 is refused", () => {
		expect(() => expandedUncertainty(mass(1, 1), 95)).toThrow(
			/above 0 and below 1/,
		);
	});

	test("an exact number has none", () => {
		const e = expandedUncertainty(input("mass", 10, "g", exact, {}));
		expect(e.halfWidth).toBe(0);
	});
});
