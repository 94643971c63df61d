/** The variance of an uptake on a curve by each flask's own residual, by hand. */
import { describe, expect, test } from "vitest";
import { curveRows } from "../../kernel-lib/compare/curve-rows";
import { unevenScatterVariance } from "../../kernel-lib/compare/uneven-scatter";
import {
	fitIsotherm,
	freundlich,
	pointsOfUptakes,
} from "../../kernel-lib/isotherms";
import { type FlaskFixture, flasks } from "./fixtures";

/** q = 60 C^0.25 at these residues, off by so much in turn (mg/L, and a tenth of it in mg/g). */
const residues = [100, 250, 600, 1200, 2500, 4000];
const made = (off: readonly number[]) =>
	fitIsotherm(
		freundlich,
		pointsOfUptakes(
			flasks(
				residues.map(
					(c, i): FlaskFixture => ({
						flask: `w${i}`,
						treatment: "water",
						residue: c + off[i % off.length],
						uptake: 60 * c ** 0.25 - 0.1 * off[i % off.length],
						reading: 0.3,
						residueReading: 3,
					}),
				),
			),
		)[0],
	);

describe("HC2", () => {
	const fit = made([4, -9, 2, 7, -12, 5]);

	test("what each flask pulls, times its residual, over what the curve has left of it", () => {
		const { rows } = curveRows(fit);
		// (J'J)^-1 of two parameters, and the gradient of K C^(1/n) at 1,500 mg/L.
		const sum = (f: (g: Float64Array) => number) =>
			rows.reduce((s, r) => s + f(r.gradient), 0);
		const [a, b, d] = [
			sum((g) => g[0] * g[0]),
			sum((g) => g[0] * g[1]),
			sum((g) => g[1] * g[1]),
		];
		const det = a * d - b * b;
		const solve = ([x, y]: Iterable<number>) => [
			(d * x - b * y) / det,
			(a * y - b * x) / det,
		];
		const step = 1e-6;
		const [k, n] = fit.theta;
		const uptake = (kf: number, power: number) => {
			const out = new Float64Array(1);
			freundlich.model.evaluate(
				Float64Array.of(kf, power),
				freundlich.model.prepare(Float64Array.of(1500)),
				out,
			);
			return out[0];
		};
		const gradient = [
			(uptake(k * (1 + step), n) - uptake(k * (1 - step), n)) / (2 * k * step),
			(uptake(k, n * (1 + step)) - uptake(k, n * (1 - step))) / (2 * n * step),
		];
		const pull = solve(gradient);
		const expected = rows.reduce((total, { gradient: g, residual }) => {
			const [u, v] = solve(g);
			const leverage = g[0] * u + g[1] * v;
			expect(leverage).toBeGreaterThan(0.05);
			return (
				total +
				((g[0] * pull[0] + g[1] * pull[1]) * residual) ** 2 / (1 - leverage)
			);
		}, 0);
		expect(rows).toHaveLength(6);
		expect(unevenScatterVariance(fit, 1500) / expected).toBeCloseTo(1, 6);
	});

	test("nothing can be said of points without errors beside the curve", () => {
		const unknown = {
			...fit,
			scatterCovariance: { is: "not known", because: "" },
		} as typeof fit;
		expect(unevenScatterVariance(unknown, 1500)).toBe(0);
		const broken = { ...fit, expected: fit.expected.map(() => Number.NaN) };
		expect(unevenScatterVariance(broken, 1500)).toBe(0);
	});
});
