import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { correlation, per } from "../../kernel-lib/quantity/index";
import { composition, molarMass } from "../../kernel-lib/substances";
import { atomicWeights } from "../../kernel-lib/substances/atomic-weights";

function atoms(formula: string): unknown {
	const read = composition(formula);
	return read.ok ? read.value : read.problems[0];
}

describe("composition", () => {
	test.each([
		["I2", { I: 2 }],
		["Ca(OH)2", { Ca: 1, O: 2, H: 2 }],
		["Na2S2O3.5H2O", { Na: 2, S: 2, O: 8, H: 10 }],
		["Na2S2O3·5H2O", { Na: 2, S: 2, O: 8, H: 10 }],
		["Na₂S₂O₃·5H₂O", { Na: 2, S: 2, O: 8, H: 10 }],
		["CaSO4·0.5H2O", { Ca: 1, S: 1, O: 4.5, H: 1 }],
		["K4[Fe(CN)6]·3H2O", { K: 4, Fe: 1, C: 6, N: 6, H: 6, O: 3 }],
		["{[Co(NH3)5]Cl}2", { Co: 2, N: 10, H: 30, Cl: 2 }],
		["C16H18N3S+", { C: 16, H: 18, N: 3, S: 1 }],
		["SO4^2-", { S: 1, O: 4 }],
		["CO", { C: 1, O: 1 }],
		["Co", { Co: 1 }],
	])("%s", (formula, expected) => {
		expect(atoms(formula)).toEqual(expected);
	});

	test.each([
		["", "nothing"],
		["NaCl)", `a ")" at place 5`],
		["Ca(OH2", `an open "("`],
		["Ca(OH]2", `a "]"`],
		["Xx2", `"Xx"`],
		["nacl", `"n"`],
		["NaCl.", "an empty part"],
		["Na-Cl", `"-"`],
	])("%s is refused with what was found", (formula, found) => {
		expect(atoms(formula)).toMatchObject({
			code: "formula-unreadable",
			found: expect.stringContaining(found),
		});
	});

	test("any formula that is put together from elements and brackets is read back", () => {
		const element = fc.constantFrom(...Object.keys(atomicWeights));
		const group = fc.array(fc.tuple(element, fc.integer({ min: 1, max: 12 })), {
			minLength: 1,
			maxLength: 4,
		});
		const text = (parts: [string, number][]): string =>
			parts.map(([e, n]) => `${e}${n === 1 ? "" : n}`).join("");
		fc.assert(
			fc.property(
				group,
				group,
				fc.integer({ min: 2, max: 9 }),
				fc.integer({ min: 2, max: 12 }),
				(outer, inner, times, water) => {
					const counts: Record<string, number> = { H: 2 * water, O: water };
					for (const [e, n] of outer) counts[e] = (counts[e] ?? 0) + n;
					for (const [e, n] of inner) counts[e] = (counts[e] ?? 0) + n * times;
					expect(
						atoms(`${text(outer)}(${text(inner)})${times}·${water}H2O`),
					).toEqual(counts);
				},
			),
		);
	});
});

describe("molar mass", () => {
	test("atoms of one element share its error: 2 u(I), not sqrt(2) u(I)", () => {
		expect(molarMass("I2").standardUncertainty).toBeCloseTo(
			(2 * 0.01) / Math.sqrt(3),
			12,
		);
		expect(correlation(molarMass("I2"), molarMass("I"))).toBeCloseTo(1, 12);
	});

	test("iodine cancels in the ratio of two iodine compounds", () => {
		const ratio = per(molarMass("KIO3"), molarMass("KIO3"));
		expect(ratio.standardUncertainty).toBe(0);
	});

	test("at least thirty elements are on record, each with its uncertainty", () => {
		const all = Object.values(atomicWeights);
		expect(all.length).toBeGreaterThanOrEqual(30);
		for (const [weight, halfWidth] of all) {
			expect(halfWidth).toBeGreaterThan(0);
			expect(halfWidth / weight).toBeLessThan(0.01);
		}
	});

	test("a formula that cannot be read is an error for people", () => {
		expect(() => molarMass("Xx")).toThrow(/found "Xx" in the formula "Xx"/);
	});
});
