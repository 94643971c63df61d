import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
	type FitData,
	fit as fitCurve,
	fitTable,
	parameterTable,
	pointTable,
} from "../../kernel-lib/fit";
import { createRandom } from "../../kernel-lib/stats";
import { apart, hyperbola, line, standardErrors } from "./fixtures";

/** Any trial that a hyperbola can be fitted to: five to twelve points between a tenth and ten times 1/k, with normal scatter of 3 %. */
const trial: fc.Arbitrary<{ x: number[]; y: number[]; k: number }> = fc
	.record({
		q: fc.double({ min: 20, max: 500, noNaN: true }),
		logK: fc.double({ min: -7, max: 0, noNaN: true }),
		places: fc.array(fc.double({ min: -2.3, max: 2.3, noNaN: true }), {
			minLength: 5,
			maxLength: 12,
		}),
		seed: fc.nat(),
	})
	// Points must spread, or no hyperbola is settled by them.
	.filter(
		({ places }) =>
			Math.max(...places) - Math.min(...places) > 2 &&
			Math.max(...places) > 0.5,
	)
	.map(({ q, logK, places, seed }) => {
		const random = createRandom(seed);
		const k = Math.exp(logK);
		const x = places.map((at) => Math.exp(at) / k);
		const y = x.map(
			(c) => ((q * k * c) / (1 + k * c)) * (1 + 0.03 * random.normal()),
		);
		return { k, x, y };
	});

const run = (data: FitData, k: number): ReturnType<typeof fitCurve> =>
	fitCurve(hyperbola, data, { start: { k } });

/** Nothing is compared where the fit itself says that it is not to be used. */
const sound = (result: ReturnType<typeof fitCurve>): boolean =>
	result.converged.holds && result.errorsAvailable.holds;

const settings = { numRuns: 150 };

describe("laws of a fit", () => {
	test("y in another unit scales what is in that unit and nothing else", () => {
		fc.assert(
			fc.property(
				trial,
				fc.constantFrom(1e-6, 1e-3, 0.45, 1000, 1e6),
				({ x, y, k }, factor) => {
					const a = run({ x, y }, k);
					fc.pre(sound(a));
					const b = run({ x, y: y.map((v) => v * factor) }, k);
					expect(
						apart(b.theta, [a.theta[0] * factor, a.theta[1]]),
					).toBeLessThan(1e-6);
					const [sq, sk] = standardErrors(a);
					expect(apart(standardErrors(b), [sq * factor, sk])).toBeLessThan(
						1e-5,
					);
				},
			),
			settings,
		);
	});

	test("x in another unit scales the rate the other way", () => {
		fc.assert(
			fc.property(
				trial,
				fc.constantFrom(1e-3, 0.25, 1000),
				({ x, y, k }, factor) => {
					const a = run({ x, y }, k);
					fc.pre(sound(a));
					const b = run({ x: x.map((v) => v * factor), y }, k / factor);
					expect(
						apart(b.theta, [a.theta[0], a.theta[1] / factor]),
					).toBeLessThan(1e-6);
				},
			),
			settings,
		);
	});

	test("the order of the points is of no account", () => {
		fc.assert(
			fc.property(trial, fc.nat(), ({ x, y, k }, seed) => {
				const order = x
					.map((_, i) => ({ i, key: Math.sin(seed + 37 * i) }))
					.sort((a, b) => a.key - b.key)
					.map(({ i }) => i);
				const a = run({ x, y }, k);
				fc.pre(sound(a));
				const b = run(
					{ x: order.map((i) => x[i]), y: order.map((i) => y[i]) },
					k,
				);
				expect(apart(b.theta, a.theta)).toBeLessThan(1e-7);
				expect(apart(standardErrors(b), standardErrors(a))).toBeLessThan(1e-6);
				expect(
					apart(
						b.fitted,
						order.map((i) => a.fitted[i]),
					),
				).toBeLessThan(1e-7);
			}),
			settings,
		);
	});

	test("one sigma for all, taken as relative, is no sigma", () => {
		fc.assert(
			fc.property(
				trial,
				fc.double({ min: 1e-3, max: 1e3, noNaN: true }),
				({ x, y, k }, sigmaY) => {
					const a = run({ x, y }, k);
					fc.pre(sound(a));
					const b = run({ x, y, sigmaY, sigmaIsAbsolute: false }, k);
					expect(apart(b.theta, a.theta)).toBeLessThan(1e-7);
					expect(apart(standardErrors(b), standardErrors(a))).toBeLessThan(
						1e-6,
					);
				},
			),
			settings,
		);
	});

	test("every point measured twice leaves the curve and shrinks relative errors as it should", () => {
		fc.assert(
			fc.property(trial, ({ x, y, k }) => {
				const a = run({ x, y }, k);
				fc.pre(sound(a));
				const b = run({ x: [...x, ...x], y: [...y, ...y] }, k);
				expect(apart(b.theta, a.theta)).toBeLessThan(1e-7);
				const n = x.length;
				const shrunk = Math.sqrt((n - 2) / (2 * n - 2));
				expect(
					apart(
						standardErrors(b),
						standardErrors(a).map((s) => s * shrunk),
					),
				).toBeLessThan(1e-6);
			}),
			settings,
		);
	});

	test("at the minimum the residuals are at right angles to every direction in which the curve can move", () => {
		fc.assert(
			fc.property(trial, ({ x, y, k }) => {
				const a = run({ x, y }, k);
				fc.pre(sound(a));
				const [q, rate] = a.theta;
				const directions = [
					x.map((c) => (rate * c) / (1 + rate * c)),
					x.map((c) => (q * c) / (1 + rate * c) ** 2),
				];
				const size = (v: ArrayLike<number>): number =>
					Math.sqrt(Array.from(v).reduce((s, e) => s + e * e, 0));
				for (const d of directions) {
					const cosine =
						d.reduce((s, e, i) => s + e * a.residuals[i], 0) /
						(size(d) * size(a.residuals));
					expect(Math.abs(cosine)).toBeLessThan(1e-6);
				}
			}),
			settings,
		);
	});

	test("any points at all give a fit that says what it is worth, without a number that is none", () => {
		fc.assert(
			fc.property(
				fc.array(
					fc.record({
						x: fc.oneof(
							fc.integer({ min: -3, max: 3 }),
							fc.double({ min: -1e9, max: 1e9, noNaN: true }),
						),
						y: fc.oneof(
							fc.integer({ min: -3, max: 3 }),
							fc.double({ min: -1e9, max: 1e9, noNaN: true }),
						),
					}),
					{ minLength: 2, maxLength: 8 },
				),
				fc.constantFrom(line, hyperbola),
				(rows, model) => {
					const data = { x: rows.map((r) => r.x), y: rows.map((r) => r.y) };
					const a = fitCurve(model, data, {
						start: model === hyperbola ? { q: 1, k: 1 } : { a: 1, b: 1 },
					});
					for (const row of [
						...parameterTable(a),
						...pointTable(a),
						...fitTable(a),
					])
						for (const cell of Object.values(row))
							expect(typeof cell !== "number" || Number.isFinite(cell)).toBe(
								true,
							);
					expect(a.converged.holds || a.cautions.length > 0).toBe(true);
				},
			),
			{ numRuns: 100 },
		);
	});
});
