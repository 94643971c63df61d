import { describe, expect, test } from "vitest";
import { defineModel, fit as fitCurve } from "../../kernel-lib/fit";
import { referenceData } from "../reference/check";
import {
	apart,
	decay,
	hyperbola,
	line,
	standardErrors,
	tenDoses,
	valueIn,
} from "./fixtures";

const { boundActive } = referenceData<{
	boundActive: {
		x: number[];
		y: number[];
		parameters: number[];
		standardErrors: number[];
		unbounded: number[];
	};
}>("fit-checks.json");

describe("fixed parameters", () => {
	const x = [1, 2, 3, 4, 5, 6];
	const y = [3.1, 4.8, 7.3, 8.9, 11.2, 12.8];

	test("what is fixed keeps its value, and the others are fitted as if it were a constant", () => {
		const fixed = fitCurve(line, { x, y }, { fixed: { a: 1.5 } });
		// Line through (0, 1.5): b = sum x (y - 1.5) / sum x^2.
		const xx = x.reduce((s, v) => s + v * v, 0);
		const b = x.reduce((s, v, i) => s + v * (y[i] - 1.5), 0) / xx;
		expect(fixed.theta[0]).toBe(1.5);
		expect(fixed.theta[1]).toBeCloseTo(b, 12);
		const rss = x.reduce((s, v, i) => s + (y[i] - 1.5 - b * v) ** 2, 0);
		expect(valueIn(fixed.parameters[1].standardError)).toBeCloseTo(
			Math.sqrt(rss / 5 / xx),
			12,
		);
		expect(fixed.freeParameters).toBe(1);
		expect(fixed.degreesOfFreedom).toBe(5);
		expect(fixed.parameters[0]).toMatchObject({
			role: "fixed",
			standardError: { is: "not known", because: "held at this value" },
			interval: { is: "not known" },
		});
	});

	test("a curve with a fixed shape parameter becomes linear and needs no start", () => {
		const y = tenDoses.map((c) => (200 * 0.05 * c) / (1 + 0.05 * c) + (c % 3));
		const found = fitCurve(
			hyperbola,
			{ x: tenDoses, y },
			{ fixed: { k: 0.05 } },
		);
		const g = tenDoses.map((c) => (0.05 * c) / (1 + 0.05 * c));
		const q =
			g.reduce((s, v, i) => s + v * y[i], 0) / g.reduce((s, v) => s + v * v, 0);
		expect(found.theta[0]).toBeCloseTo(q, 9);
	});
});

describe("limits", () => {
	test("a parameter that wants to go past its limit stays on it; the others are fitted as if it were fixed there (SciPy)", () => {
		const { x, y } = boundActive;
		const found = fitCurve(decay, { x, y }, { start: { k: 0.4 } });
		expect(found.theta[0]).toBe(0);
		expect(apart(found.theta, boundActive.parameters)).toBeLessThan(1e-6);
		expect(found.atLimit).toEqual({
			holds: true,
			reason: "a is at its lower limit",
		});
		expect(found.parameters[0]).toMatchObject({
			limit: "at its lower limit",
			standardError: {
				is: "not known",
				because: "at its lower limit, so the data do not place it",
			},
		});
		expect(
			apart(
				[1, 2].map((j) => valueIn(found.parameters[j].standardError)),
				boundActive.standardErrors,
			),
		).toBeLessThan(1e-5);
		expect(found.cautions.join(" ")).toContain("a is at its lower limit");
	});

	test("with the limit moved out of the way it is fitted like any other (SciPy)", () => {
		const { x, y, unbounded } = boundActive;
		const found = fitCurve(
			decay,
			{ x, y },
			{ start: { k: 0.4 }, lower: { a: -Infinity } },
		);
		expect(apart(found.theta, unbounded)).toBeLessThan(1e-6);
		expect(found.atLimit.holds).toBe(false);
	});

	test("an upper limit of a nonlinear parameter holds too", () => {
		const y = tenDoses.map((c) => (200 * 0.05 * c) / (1 + 0.05 * c) + (c % 3));
		const open = fitCurve(
			hyperbola,
			{ x: tenDoses, y },
			{ start: { k: 0.02 } },
		);
		const most = 0.9 * open.theta[1];
		const held = fitCurve(
			hyperbola,
			{ x: tenDoses, y },
			{ start: { k: 0.02 }, upper: { k: most } },
		);
		const fixed = fitCurve(
			hyperbola,
			{ x: tenDoses, y },
			{ fixed: { k: most } },
		);
		expect(held.theta[1]).toBe(most);
		expect(held.parameters[1].limit).toBe("at its upper limit");
		expect(held.theta[0] / fixed.theta[0]).toBeCloseTo(1, 9);
		expect(held.residualSumOfSquares).toBeGreaterThan(
			open.residualSumOfSquares,
		);
	});

	test("limits that do not bind change nothing", () => {
		const y = tenDoses.map((c) => (200 * 0.05 * c) / (1 + 0.05 * c) + (c % 3));
		const start = { k: 0.02 };
		const open = fitCurve(hyperbola, { x: tenDoses, y }, { start });
		const wide = fitCurve(
			hyperbola,
			{ x: tenDoses, y },
			{ start, lower: { q: 1, k: 1e-6 }, upper: { q: 1e4, k: 10 } },
		);
		expect(apart(wide.theta, open.theta)).toBeLessThan(1e-9);
		expect(apart(standardErrors(wide), standardErrors(open))).toBeLessThan(
			1e-8,
		);
		expect(wide.atLimit.holds).toBe(false);
	});
});

describe("derivatives of a user's own curve", () => {
	test("numerical ones give the same fit and errors as exact ones", () => {
		const exact = defineModel({
			name: "exact",
			parameters: ["q", "k"],
			evaluate: (p, x, out) => {
				for (let i = 0; i < out.length; i++)
					out[i] = p[0] * (1 - Math.exp(-p[1] * x[i]));
			},
			derivatives: (p, x, out) => {
				const n = out.length / 2;
				for (let i = 0; i < n; i++) {
					out[i] = 1 - Math.exp(-p[1] * x[i]);
					out[n + i] = p[0] * x[i] * Math.exp(-p[1] * x[i]);
				}
			},
		});
		const numerical = defineModel({
			name: "numerical",
			parameters: ["q", "k"],
			curve: (x, q, k) => q * (1 - Math.exp(-k * x)),
		});
		const x = [1, 2, 4, 7, 11, 16];
		const y = [17.1, 33.2, 55.9, 70.4, 84.1, 88.7];
		const start = { k: 1 };
		const a = fitCurve(exact, { x, y }, { start });
		const b = fitCurve(numerical, { x, y }, { start });
		expect(apart(b.theta, a.theta)).toBeLessThan(1e-10);
		expect(apart(standardErrors(b), standardErrors(a))).toBeLessThan(1e-9);
	});

	test("several predictors: a plane, against its normal equations", () => {
		const plane = defineModel({
			name: "plane",
			parameters: ["a", "b", "c"],
			predictors: 2,
			evaluate: (p, x, out) => {
				const n = out.length;
				for (let i = 0; i < n; i++)
					out[i] = p[0] + p[1] * x[i] + p[2] * x[n + i];
			},
		});
		const u = [1, 2, 3, 4, 5];
		const v = [2, 1, 4, 3, 6];
		// On the plane exactly, so the answer is known.
		const y = u.map((a, i) => 3 - 2 * a + 0.5 * v[i]);
		const found = fitCurve(plane, { x: [u, v], y });
		expect(apart(found.theta, [3, -2, 0.5])).toBeLessThan(1e-12);
	});
});
