import { describe, expect, test } from "vitest";
import { defineModel, fit as fitCurve } from "../../kernel-lib/fit/index";

const rate = (x: number, k: number, n: number): number => x / (k + x ** n);
const parameters = [
	{ name: "k", lower: 0 },
	{ name: "n", lower: 0 },
];
const x = [0.5, 1, 2, 4, 8, 16];
const y = x.map((v, i) => rate(v, 2, 0.7) * (1 + 0.01 * (-1) ** i));
const fitted = (noneLinear: boolean): ReturnType<typeof fitCurve> =>
	fitCurve(
		defineModel({ name: "rate", parameters, curve: rate, noneLinear }),
		{ x, y },
		{ start: { k: 1, n: 1 } },
	);

describe("a curve that is known to be linear in nothing", () => {
	test("has the same fit as when that is found by trying", () => {
		const [told, tried] = [fitted(true), fitted(false)];
		told.parameters.forEach((p, j) => {
			expect(p.value).toBeCloseTo(tried.parameters[j].value, 8);
			expect(p.standardError).toEqual({
				is: "value",
				value: expect.closeTo(
					tried.parameters[j].standardError.is === "value"
						? tried.parameters[j].standardError.value
						: Number.NaN,
					8,
				),
			});
		});
	});

	test("needs a start for every parameter", () => {
		expect(() =>
			fitCurve(
				defineModel({
					name: "line",
					parameters: ["a", "b"],
					curve: (t, a, b) => a + b * t,
					noneLinear: true,
				}),
				{ x, y },
			),
		).toThrow(/start/);
	});
});
