import { describe, expect, test } from "vitest";
import { type FitOptions, fit as fitCurve } from "../../kernel-lib/fit";
import { createRandom } from "../../kernel-lib/stats";
import { referenceData } from "../reference/check";
import {
	apart,
	hyperbola,
	level,
	line,
	standardErrors,
	valueIn,
} from "./fixtures";

const x = [1, 2, 3, 4, 5, 6, 7, 8, 9];
const y = [10.1, 9.7, 10.4, 9.9, 10.2, 10.0, 14.8, 9.6, 25];

const huber = (u: number): number => Math.max(-1.345, Math.min(1.345, u));
const cauchy = (u: number): number => u / (1 + (u / 2.385) ** 2);

function median(values: readonly number[]): number {
	const s = [...values].sort((a, b) => a - b);
	return (s[(s.length - 1) >> 1] + s[s.length >> 1]) / 2;
}

describe("robust losses on a level, where the equation can be solved by itself", () => {
	/** Root of sum psi((y - a) / s) by bisection. */
	function location(
		psi: (u: number) => number,
		s: number,
		low: number,
		high: number,
	): number {
		const sum = (a: number): number =>
			y.reduce((total, v) => total + psi((v - a) / s), 0);
		let [a, b] = [low, high];
		for (let round = 0; round < 200; round++) {
			const middle = (a + b) / 2;
			if (sum(middle) > 0) a = middle;
			else b = middle;
		}
		return (a + b) / 2;
	}

	test("with absolute sigmas the scale is theirs", () => {
		const data = { x, y, sigmaY: 0.4, sigmaIsAbsolute: true };
		expect(fitCurve(level, data, { loss: "Huber" }).theta[0]).toBeCloseTo(
			location(huber, 0.4, 9, 26),
			9,
		);
		expect(fitCurve(level, data, { loss: "Cauchy" }).theta[0]).toBeCloseTo(
			location(cauchy, 0.4, 9.5, 10.8),
			8,
		);
	});

	test("without them it is 1.4826 times the median absolute residual, found along with the level", () => {
		let a = median(y);
		let s = 1;
		for (let round = 0; round < 500; round++) {
			s = 1.482602218505602 * median(y.map((v) => Math.abs(v - a)));
			a = location(huber, s, 5, 26);
		}
		const found = fitCurve(level, { x, y }, { loss: "Huber" });
		expect(found.theta[0]).toBeCloseTo(a, 8);
		expect(valueIn(found.residualSD)).toBeCloseTo(s, 8);
		// Cauchy keeps Huber's scale.
		expect(fitCurve(level, { x, y }, { loss: "Cauchy" }).theta[0]).toBeCloseTo(
			location(cauchy, s, 9.5, 10.8),
			8,
		);
	});

	test("far points are told by their weights, near ones keep theirs", () => {
		const found = fitCurve(level, { x, y }, { loss: "Huber" });
		expect(found.lossWeights[8]).toBeLessThan(0.1);
		expect(found.lossWeights[0]).toBe(1);
		const u = (y[8] - found.theta[0]) / valueIn(found.residualSD);
		expect(found.lossWeights[8]).toBeCloseTo(1.345 / u, 8);
		const squares = fitCurve(level, { x, y });
		expect(Array.from(squares.lossWeights)).toEqual(y.map(() => 1));
	});
});

interface Robust {
	readonly x: number[];
	readonly y: number[];
	readonly sigma: number;
	readonly fits: readonly {
		readonly loss: "Huber" | "Cauchy";
		readonly parameters: number[];
	}[];
}
const checks = referenceData<{
	robustLine: Robust;
	robustHyperbola: Robust;
}>("fit-checks.json");

describe("against SciPy's least_squares", () => {
	test.each([
		["line", line, checks.robustLine, {}],
		["hyperbola", hyperbola, checks.robustHyperbola, { start: { k: 0.05 } }],
	] as const)("%s", (_, model, { x, y, sigma, fits }, options: FitOptions) => {
		for (const { loss, parameters } of fits) {
			const data = { x, y, sigmaY: sigma, sigmaIsAbsolute: true };
			const found = fitCurve(model, data, { ...options, loss });
			expect(apart(found.theta, parameters)).toBeLessThan(1e-6);
			const squares = fitCurve(model, data, options);
			expect(apart(squares.theta, parameters)).toBeGreaterThan(0.01);
		}
	});
});

describe("errors of a robust fit", () => {
	test("with normal errors the 95 % interval of a slope holds it about as often, and the fit is nearly as sharp", () => {
		const at = Array.from({ length: 30 }, (_, i) => i);
		const trials = 500;
		let held = 0;
		let ratio = 0;
		for (let seed = 0; seed < trials; seed++) {
			const random = createRandom(seed);
			const data = { x: at, y: at.map((v) => 3 + 0.5 * v + random.normal()) };
			const robust = fitCurve(line, data, { loss: "Huber" });
			const half = 2.048 * standardErrors(robust)[1]; // t(0.975; 28)
			if (Math.abs(robust.theta[1] - 0.5) <= half) held++;
			ratio +=
				standardErrors(robust)[1] / standardErrors(fitCurve(line, data))[1];
		}
		expect(held / trials).toBeGreaterThan(0.9);
		expect(held / trials).toBeLessThan(0.98);
		expect(ratio / trials).toBeGreaterThan(0.97);
		expect(ratio / trials).toBeLessThan(1.1);
	});

	test("of a level are Huber's formula, written out", () => {
		const found = fitCurve(level, { x, y }, { loss: "Huber" });
		const scale = valueIn(found.residualSD);
		const u = y.map((v) => (v - found.theta[0]) / scale);
		const slopes = u.map((v): number => (Math.abs(v) <= 1.345 ? 1 : 0));
		const mean = slopes.reduce((s, v) => s + v, 0) / 9;
		const variance = slopes.reduce((s, v) => s + (v - mean) ** 2, 0) / 9;
		const k = 1 + variance / 9 / mean ** 2;
		const squares = u.reduce((s, v) => s + huber(v) ** 2, 0) / 8;
		expect(standardErrors(found)[0]).toBeCloseTo(
			(k * scale * Math.sqrt(squares / 9)) / mean,
			8,
		);
	});

	test("one point far off hardly moves it, and hardly widens its errors", () => {
		const at = Array.from({ length: 20 }, (_, i) => i);
		const random = createRandom(3);
		const clean = at.map((v) => 3 + 0.5 * v + random.normal());
		const spoiled = clean.map((v, i) => (i === 17 ? v + 1000 : v));
		for (const loss of ["Huber", "Cauchy"] as const) {
			const a = fitCurve(line, { x: at, y: clean }, { loss });
			const b = fitCurve(line, { x: at, y: spoiled }, { loss });
			expect(Math.abs(b.theta[1] - a.theta[1])).toBeLessThan(
				standardErrors(a)[1],
			);
			expect(standardErrors(b)[1] / standardErrors(a)[1]).toBeLessThan(2);
		}
	});

	test("information criteria are refused with their reason", () => {
		const found = fitCurve(level, { x, y }, { loss: "Huber" });
		expect(found.criteria.aicc).toEqual({
			is: "not known",
			because: expect.stringContaining("Huber"),
		});
	});
});
