import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { meet } from "../../kernel-lib/isotherms/balance-line";
import {
	boundResidual,
	boundResidualSlope,
} from "../../kernel-lib/isotherms/bound-residual";
import * as isotherms from "../../kernel-lib/isotherms/catalogue/index";
import { residueModel } from "../../kernel-lib/isotherms/residue-model";
import { normalCdf } from "../../kernel-lib/stats/index";

const one = (
	isotherm: isotherms.Isotherm,
	theta: number[],
	intercept: number,
	slope: number,
	near: number,
): number => {
	const out = new Float64Array(1);
	meet(
		isotherm,
		Float64Array.from(theta),
		{ intercept: [intercept], slope: [slope], near: [near] },
		out,
	);
	return out[0];
};

const positive = (low: number, high: number) =>
	fc
		.double({ min: Math.log(low), max: Math.log(high), noNaN: true })
		.map(Math.exp);

describe("where isotherm and balance line meet", () => {
	const cases: [string, isotherms.Isotherm, number[][]][] = [
		[
			"Langmuir",
			isotherms.langmuir,
			[
				[300, 0.02],
				[900, 5],
				[40, 1e-5],
			],
		],
		[
			"Freundlich",
			isotherms.freundlich,
			[
				[60, 0.2],
				[5, 0.5],
				[400, 0.08],
			],
		],
		[
			"Temkin",
			isotherms.temkin,
			[
				[30, 0.5],
				[30, 1e-4],
			],
		],
		["Sips", isotherms.sips, [[400, 0.01, 0.5]]],
		["BET", isotherms.betLiquid(6000), [[60, 80]]],
		["Henry", isotherms.henry, [[0.3]]],
	];
	test.each(cases)("%s: the balance holds", (_, isotherm, thetas) => {
		fc.assert(
			fc.property(
				positive(1, 2000),
				positive(0.005, 5),
				positive(1e-3, 1e5),
				fc.constantFrom(...thetas),
				(intercept, slope, near, theta) => {
					const c = one(isotherm, theta, intercept, slope, near);
					const q = isotherms.uptakeAt(isotherm, Float64Array.from(theta), c);
					// a residue too small for a double's range of the bracket counts as none
					if (c > (intercept / slope) * 1e-29)
						expect(Math.abs(slope * c + q - intercept)).toBeLessThan(
							1e-9 * (intercept + Math.abs(q)),
						);
				},
			),
		);
	});

	test("Langmuir agrees with its quadratic", () => {
		// slope C (1 + K C) + m K C = a (1 + K C)
		const [m, k, a, b] = [350, 0.004, 500, 0.09];
		const p = b + m * k - a * k;
		const expected = (-p + Math.sqrt(p * p + 4 * b * k * a)) / (2 * b * k);
		expect(one(isotherms.langmuir, [m, k], a, b, 10)).toBeCloseTo(expected, 9);
	});

	test("a flask without iodine shows none", () => {
		expect(one(isotherms.langmuir, [300, 0.02], 0, 0.1, 1)).toBe(0);
		expect(one(isotherms.langmuir, [300, 0.02], -3, 0.1, 1)).toBe(0);
	});
});

describe("a bound's share of the likelihood", () => {
	test("its square is minus twice the log of the probability", () => {
		for (const z of [-30, -5, -1, -0.1, 0, 0.1, 1, 4])
			expect(boundResidual(z) ** 2).toBeCloseTo(-2 * Math.log(normalCdf(z)), 9);
	});
	test("it falls from far to nothing, without a jump where the probability underflows", () => {
		expect(boundResidual(-37.0001)).toBeCloseTo(boundResidual(-36.9999), 2);
		expect(boundResidual(-1e4)).toBeCloseTo(1e4, 2);
		expect(boundResidual(40)).toBe(0);
		for (const z of [-36, -3, 0, 2, 5]) {
			const h = 1e-5;
			expect(boundResidualSlope(z)).toBeCloseTo(
				(boundResidual(z + h) - boundResidual(z - h)) / (2 * h),
				6,
			);
		}
	});
});

describe("the model that the engine fits", () => {
	const theta = Float64Array.of(320, 0.004);
	// three flasks that were read, one that ran dry
	const x = Float64Array.of(
		...[500, 420, 300, 150],
		...[0.1, 0.1, 0.1, 0.1],
		...[1500, 1000, 300, 5],
		...[-1, -1, -1, 60],
		...[1, 1, 1, 20],
	);
	const model = residueModel(isotherms.langmuir);
	test("its derivatives are those of its values", () => {
		if (model.derivatives.kind !== "given") throw new Error("none given");
		const given = new Float64Array(8);
		model.derivatives.fill(theta, x, given);
		theta.forEach((value, j) => {
			const h = 1e-5 * value;
			const [above, below] = [h, -h].map((d) => {
				const moved = theta.slice();
				moved[j] += d;
				const out = new Float64Array(4);
				model.evaluate(moved, x, out);
				return out;
			});
			for (let i = 0; i < 4; i++) {
				const numerical = (above[i] - below[i]) / (2 * h);
				expect(given[j * 4 + i] / numerical).toBeCloseTo(1, 6);
			}
		});
	});
});
