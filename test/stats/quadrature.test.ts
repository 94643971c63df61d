import { describe, expect, it } from "vitest";
import {
	bracketedRoot,
	gaussLegendre,
	integrate,
} from "../../kernel-lib/stats/index";

describe("quadrature", () => {
	it("Gauss-Legendre with n nodes is exact up to degree 2n - 1 and not beyond", () => {
		for (const n of [1, 2, 5, 20, 64]) {
			const { node, weight } = gaussLegendre(n, 0, 1);
			const moment = (degree: number): number =>
				node.reduce((sum, x, i) => sum + weight[i] * x ** degree, 0);
			for (const degree of [0, 1, n, 2 * n - 1])
				expect(moment(degree)).toBeCloseTo(1 / (degree + 1), 14);
			if (n <= 5)
				expect(Math.abs(moment(2 * n) - 1 / (2 * n + 1))).toBeGreaterThan(1e-7);
		}
	});

	it("adaptive integration finds narrow peaks and edges", () => {
		expect(integrate(Math.exp, 0, 1)).toBeCloseTo(Math.E - 1, 13);
		const width = 1e-3;
		expect(
			integrate((x) => width / (width ** 2 + (x - 0.3) ** 2), 0, 1),
		).toBeCloseTo(Math.atan(0.7 / width) + Math.atan(0.3 / width), 10);
		expect(integrate((x) => (x < 1 / 3 ? 1 : 0), 0, 1, 1e-9)).toBeCloseTo(
			1 / 3,
			8,
		);
		expect(() => integrate((x) => Math.sin(1 / x) / x, 0, 1, 1e-14)).toThrow(
			"not settled",
		);
	});

	it("finds roots between two signs and refuses equal ones", () => {
		expect(bracketedRoot((x) => Math.cos(x) - x, 0, 1, 1e-14)).toBeCloseTo(
			0.7390851332151607,
			14,
		);
		expect(() => bracketedRoot((x) => x * x + 1, -1, 1, 1e-9)).toThrow(
			"a function with the same sign at -1 and 1 (2 and 2)",
		);
	});
});
