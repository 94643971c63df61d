import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as isotherms from "../../kernel-lib/isotherms/catalogue/index";

/** Every isotherm with a box of sensible parameters (low, high) and of concentrations, mg/L. */
const catalogue: readonly {
	readonly isotherm: isotherms.Isotherm;
	readonly box: readonly (readonly [number, number])[];
	readonly c: readonly [number, number];
}[] = [
	{ isotherm: isotherms.henry, box: [[0.01, 50]], c: [0.01, 5000] },
	{
		isotherm: isotherms.langmuir,
		box: [
			[20, 1500],
			[1e-4, 1],
		],
		c: [0.01, 5000],
	},
	{
		isotherm: isotherms.freundlich,
		box: [
			[1, 500],
			[0.08, 1.5],
		],
		c: [0.01, 5000],
	},
	{
		isotherm: isotherms.temkin,
		box: [
			[5, 200],
			[0.01, 10],
		],
		c: [1, 5000],
	},
	{
		isotherm: isotherms.sips,
		box: [
			[20, 1500],
			[1e-4, 1],
			[0.3, 1.5],
		],
		c: [0.01, 5000],
	},
	{
		isotherm: isotherms.toth,
		box: [
			[20, 1500],
			[1e-4, 1],
			[0.3, 1.5],
		],
		c: [0.01, 5000],
	},
	{
		isotherm: isotherms.redlichPeterson,
		box: [
			[0.5, 100],
			[1e-3, 2],
			[0.3, 0.99],
		],
		c: [0.01, 5000],
	},
	{
		isotherm: isotherms.dubininRadushkevich(298.15, {
			form: "one over C",
			molarMass: 253.809,
		}),
		box: [
			[20, 1500],
			[0.001, 0.02],
		],
		c: [1, 5000],
	},
	{
		isotherm: isotherms.dubininRadushkevich(298.15, {
			form: "solubility",
			solubility: 6000,
		}),
		box: [
			[20, 1500],
			[0.002, 0.03],
		],
		c: [1, 5000],
	},
	{
		isotherm: isotherms.dualSiteLangmuir,
		box: [
			[20, 500],
			[0.01, 1],
			[20, 500],
			[1e-4, 0.01],
		],
		c: [0.01, 5000],
	},
	{
		isotherm: isotherms.betLiquid(6000),
		box: [
			[20, 500],
			[2, 500],
		],
		c: [0.1, 5000],
	},
	{
		isotherm: isotherms.ownIsotherm({
			name: "logarithm",
			parameters: ["a", "b"],
			start: [60, 0.01],
			curve: (c, a, b) => a * Math.log1p(b * c),
		}),
		box: [
			[5, 200],
			[1e-3, 1],
		],
		c: [0.01, 5000],
	},
];

/** Places in a box by fractions of its logarithm, so that every order of magnitude comes up. */
const between = ([low, high]: readonly [number, number], at: number): number =>
	low * (high / low) ** at;

const fraction = fc.double({ min: 0, max: 1, noNaN: true });

/** Central difference with a step that goes with the size of x; good to about 1e-9. */
const difference = (f: (x: number) => number, x: number): number => {
	const h = 1e-3 * x;
	return (f(x - 2 * h) - 8 * f(x - h) + 8 * f(x + h) - f(x + 2 * h)) / (12 * h);
};

const close = (got: number, expected: number, size: number): void =>
	expect(Math.abs(got - expected)).toBeLessThanOrEqual(
		2e-8 * Math.max(Math.abs(expected), size),
	);

describe.each(
	catalogue.map((entry, i) => [
		`${entry.isotherm.name}, ${i + 1} of the list`,
		entry,
	]),
)("%s", (_, { isotherm, box, c }) => {
	const places = fc
		.tuple(
			fc.array(fraction, { minLength: box.length, maxLength: box.length }),
			fraction,
		)
		.map(([at, atC]) => ({
			theta: Float64Array.from(at, (f, j) => between(box[j], f)),
			concentration: between(c, atC),
		}));

	test("derivatives by every parameter are those of the curve", () => {
		fc.assert(
			fc.property(places, ({ theta, concentration }) => {
				const given = isotherms.derivativesAt(isotherm, theta, concentration);
				const q = Math.abs(isotherms.uptakeAt(isotherm, theta, concentration));
				theta.forEach((value, j) => {
					const numerical = difference((x) => {
						const moved = theta.slice();
						moved[j] = x;
						return isotherms.uptakeAt(isotherm, moved, concentration);
					}, value);
					close(given[j], numerical, (1e-3 * q) / value);
				});
			}),
		);
	});

	test("the slope is dq/dC", () => {
		fc.assert(
			fc.property(places, ({ theta, concentration }) => {
				const numerical = difference(
					(x) => isotherms.uptakeAt(isotherm, theta, x),
					concentration,
				);
				const q = Math.abs(isotherms.uptakeAt(isotherm, theta, concentration));
				close(
					isotherm.slope(theta, concentration),
					numerical,
					(1e-3 * q) / concentration,
				);
			}),
		);
	});

	test("over arrays each point is what it is alone", () => {
		fc.assert(
			fc.property(places, ({ theta, concentration }) => {
				const all = Float64Array.of(
					concentration,
					concentration / 3,
					concentration / 7,
				);
				const q = new Float64Array(3);
				const d = new Float64Array(3 * theta.length);
				const prepared = isotherm.model.prepare(all);
				isotherm.model.evaluate(theta, prepared, q);
				isotherms.derivativesOver(isotherm)(theta, prepared, d);
				all.forEach((x, i) => {
					expect(q[i]).toBeCloseTo(isotherms.uptakeAt(isotherm, theta, x), 10);
					isotherms.derivativesAt(isotherm, theta, x).forEach((v, j) => {
						expect(d[j * 3 + i]).toBe(v);
					});
				});
			}),
		);
	});

	test("start values are finite and inside the limits, whatever the points", () => {
		const { start, parameters } = isotherm.model;
		if (start.kind !== "from data") throw new Error("no start values");
		fc.assert(
			fc.property(
				fc.array(
					fc.tuple(fraction, fc.double({ min: 0.1, max: 1, noNaN: true })),
					{
						minLength: 3,
						maxLength: 12,
					},
				),
				(raw) => {
					const x = Float64Array.from(raw, ([f]) => between(c, f));
					const y = Float64Array.from(raw, ([, f]) => 300 * f);
					const out = new Float64Array(parameters.length);
					start.guess(isotherm.model.prepare(x), y, out);
					out.forEach((v, j) => {
						expect(Number.isFinite(v)).toBe(true);
						expect(v).toBeGreaterThanOrEqual(parameters[j].lower);
						expect(v).toBeLessThanOrEqual(parameters[j].upper);
					});
				},
			),
		);
	});

	test("says where it comes from and what it is not for", () => {
		for (const text of [isotherm.source, isotherm.limits, isotherm.notFor])
			expect(text.length).toBeGreaterThan(10);
		expect(isotherm.parameters.map((p) => p.name)).toEqual(
			isotherm.model.parameters.map((p) => p.name),
		);
		expect(isotherm.parameters.map((p) => p.unit)).toEqual(
			isotherm.model.parameters.map((p) => p.unit),
		);
	});
});

/** Limits in which one form becomes another, or reaches its plateau. */
describe("limiting forms", () => {
	const at = (isotherm: isotherms.Isotherm, p: number[], c: number): number =>
		isotherms.uptakeAt(isotherm, Float64Array.from(p), c);

	test("Sips and Toth with exponent 1, Redlich-Peterson with g = 1 are Langmuir", () => {
		for (const c of [0.1, 3, 40, 900]) {
			const expected = at(isotherms.langmuir, [300, 0.02], c);
			expect(at(isotherms.sips, [300, 0.02, 1], c)).toBeCloseTo(expected, 9);
			expect(at(isotherms.toth, [300, 0.02, 1], c)).toBeCloseTo(expected, 9);
			expect(at(isotherms.redlichPeterson, [6, 0.02, 1], c)).toBeCloseTo(
				expected,
				9,
			);
			expect(
				at(isotherms.dualSiteLangmuir, [100, 0.02, 200, 0.02], c),
			).toBeCloseTo(expected, 9);
		}
	});

	test("liquid BET far below saturation is Langmuir with c_B/C_s as affinity", () => {
		expect(at(isotherms.betLiquid(1e9), [60, 1e8], 20)).toBeCloseTo(
			at(isotherms.langmuir, [60, 0.1], 20),
			4,
		);
	});

	test("what is called a plateau is one", () => {
		for (const { isotherm, box } of catalogue) {
			if (isotherm.plateau.is !== "at") continue;
			const theta = Float64Array.from(box, (b) => between(b, 0.5));
			const far = Number.isFinite(isotherm.highestConcentration)
				? isotherm.highestConcentration
				: 1e30;
			expect(isotherms.uptakeAt(isotherm, theta, far)).toBeCloseTo(
				isotherm.plateau.uptake(theta),
				3,
			);
		}
	});
});
