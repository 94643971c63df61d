import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
	fitIsotherm,
	freundlich,
	type Isotherm,
	langmuir,
	redlichPeterson,
	sips,
	temkin,
	toth,
	uptakeAt,
} from "../../kernel-lib/isotherms/index";
import {
	idealAdsorbedSolution,
	residuesInIdealSolution,
} from "../../kernel-lib/mixtures/ideal-adsorbed-solution";
import {
	doseInMixture,
	mixtureCurves,
	residuesInMixture,
	type Solute,
	uptakesInMixture,
} from "../../kernel-lib/mixtures/index";
import type { Single } from "../../kernel-lib/mixtures/single";
import { spreadingOf } from "../../kernel-lib/mixtures/spreading";
import { tableText } from "../../kernel-lib/quantity/index";
import { flasksOf, residueByHalving } from "../dose/flasks";

const between = (low: number, high: number) =>
	fc
		.double({ min: Math.log(low), max: Math.log(high), noNaN: true })
		.map(Math.exp);
const single = (
	isotherm: Isotherm,
	theta: readonly number[],
	molarMass = 100,
): Single => ({ isotherm, theta: Float64Array.from(theta), molarMass });

const doses = [0.2, 0.5, 1, 1.5, 2, 3, 4, 6];
const errors = [0.2, -0.3, 0.1, -0.1, 0.2, 0.1, -0.1, 0.05];
function solute(
	name: string,
	theta: readonly number[],
	molarMass: number,
	start: number,
	isotherm: Isotherm = langmuir,
): Solute {
	const points = flasksOf(
		(c) => uptakeAt(isotherm, Float64Array.from(theta), c),
		200,
		doses,
		errors,
		0.3,
	);
	return {
		name,
		molarMass,
		start,
		fit: fitIsotherm(isotherm, { ...points, probe: name }),
	};
}

describe("spreading pressure", () => {
	test("Langmuir and Freundlich in closed form, and back", () => {
		fc.assert(
			fc.property(
				between(10, 500),
				between(1e-4, 10),
				between(0.1, 2),
				between(1e-2, 1e3),
				(qmax, k, n, c) => {
					const l = spreadingOf(single(langmuir, [qmax, k]), c);
					expect(l.at(c) / ((qmax / 100) * Math.log1p(k * c))).toBeCloseTo(
						1,
						9,
					);
					const f = spreadingOf(single(freundlich, [qmax, n]), c);
					expect(f.at(c) / ((qmax / 100) * (c ** n / n))).toBeCloseTo(1, 9);
					for (const factor of [0.01, 0.7, 30])
						expect(
							l.inverse(l.at(c * factor)).concentration / (c * factor),
						).toBeCloseTo(1, 8);
				},
			),
			{ numRuns: 60, seed: 1 },
		);
	});

	test("an isotherm that does not fall to nothing has none", () => {
		expect(() => spreadingOf(single(temkin, [30, 0.5]), 10)).toThrow(
			/no spreading pressure/,
		);
	});
});

describe("ideal adsorbed solution", () => {
	test("for two Langmuir solutes of equal molar capacity it is the competitive form, q[i] = q_max K[i] C[i]/(1 + K[1] C[1] + K[2] C[2])", () => {
		fc.assert(
			fc.property(
				between(0.2, 5),
				between(1e-3, 2),
				between(1e-3, 2),
				between(0.1, 300),
				between(0.1, 300),
				between(50, 400),
				(capacity, k1, k2, c1, c2, m2) => {
					const { uptakes } = idealAdsorbedSolution(
						[
							single(langmuir, [capacity * 100, k1], 100),
							single(langmuir, [capacity * m2, k2], m2),
						],
						[c1, c2],
					);
					const below = 1 + k1 * c1 + k2 * c2;
					expect(uptakes[0] / ((capacity * 100 * k1 * c1) / below)).toBeCloseTo(
						1,
						8,
					);
					expect(uptakes[1] / ((capacity * m2 * k2 * c2) / below)).toBeCloseTo(
						1,
						8,
					);
				},
			),
			{ numRuns: 100, seed: 2 },
		);
	});

	test("two halves of one solute are that solute, whatever its isotherm", () => {
		const kinds: [Isotherm, number[]][] = [
			[langmuir, [150, 0.05]],
			[freundlich, [20, 0.4]],
			[sips, [150, 0.03, 0.7]],
			[toth, [150, 0.1, 0.5]],
			[redlichPeterson, [15, 0.25, 0.85]],
		];
		for (const [isotherm, theta] of kinds) {
			const s = single(isotherm, theta);
			const { uptakes } = idealAdsorbedSolution([s, s], [12, 30]);
			const whole = uptakeAt(isotherm, s.theta, 42);
			expect(uptakes[0] / ((12 / 42) * whole)).toBeCloseTo(1, 8);
			expect(uptakes[1] / ((30 / 42) * whole)).toBeCloseTo(1, 8);
		}
	});

	test("a trace of the second solute leaves the first alone", () => {
		const { uptakes } = idealAdsorbedSolution(
			[single(freundlich, [20, 0.4]), single(langmuir, [150, 0.05])],
			[40, 1e-8],
		);
		expect(
			uptakes[0] / uptakeAt(freundlich, Float64Array.of(20, 0.4), 40),
		).toBeCloseTo(1, 6);
	});

	test("after a dose every solute's balance closes to 1e-9, and residues and uptakes are in equilibrium", () => {
		fc.assert(
			fc.property(
				between(5, 300),
				between(5, 300),
				between(1e-3, 50),
				fc.constantFrom(
					single(freundlich, [25, 0.35], 180),
					single(sips, [150, 0.03, 0.7], 180),
					single(langmuir, [90, 0.2], 180),
				),
				(c1, c2, dose, second) => {
					const both = [single(langmuir, [150, 0.05], 94), second];
					const found = residuesInIdealSolution(both, [c1, c2], dose);
					const again = idealAdsorbedSolution(both, found.residues);
					[c1, c2].forEach((start, i) => {
						expect(found.residues[i]).toBeGreaterThan(0);
						expect(found.residues[i]).toBeLessThan(start);
						expect(
							Math.abs(start - found.residues[i] - dose * again.uptakes[i]),
						).toBeLessThan(1e-9 * start * Math.max(1, dose));
					});
				},
			),
			{ numRuns: 60, seed: 3 },
		);
	});
});

describe("a dose in a mixture", () => {
	const phenolic = solute("a", [120, 0.05], 94, 100);
	const other = solute("b", [200, 0.08], 160, 80);

	test("competition never lowers the dose; what it would have been alone stands beside it", () => {
		for (const rule of [
			"ideal adsorbed solution",
			"competitive Langmuir",
		] as const) {
			const a = doseInMixture(rule, [phenolic, other], {
				solute: "a",
				target: 20,
			});
			if (a.is === "no dose") throw new Error(a.because);
			expect(a.times).toBeGreaterThan(1);
			expect(a.left.solutes[0].residue).toBeCloseTo(20, 6);
			expect(a.left.solutes[0].uptake).toBeLessThan(
				a.left.solutes[0].uptakeAlone,
			);
			expect(
				residueByHalving(
					(c) => uptakeAt(langmuir, phenolic.fit.theta, c),
					100,
					a.alone.value,
				),
			).toBeCloseTo(20, 8);
			if (a.dose.low.is === "not known" || a.dose.high.is === "not known")
				throw new Error();
			expect(a.dose.low.value).toBeLessThan(a.dose.value);
			expect(a.dose.high.value).toBeGreaterThan(a.dose.value);
			expect(tableText(a.table)).toContain(rule);
			expect(a.table.rows.map((r) => r[0])).toEqual([
				"a alone",
				`a beside ${a.beside.join(", ")}`,
			]);
			const [alone, beside] = a.table.rows.map((r) => Number(r[1]));
			expect(beside / alone).toBeCloseTo(a.times, 0);
			expect(a.title).toMatch(
				/^A forecast, not measured: beside ".*", about [\d.]+ g \([\d.]+ to [\d.]+\) of char per litre takes "a" from 100 to 20 mg\/L, [\d.]+ times as much as alone\.$/,
			);
		}
	});

	test("competitive Langmuir: the balance of both solutes, solved here by turns", () => {
		const [q1, k1] = phenolic.fit.theta;
		const [q2, k2] = other.fit.theta;
		let c = [50, 50];
		const dose = 1.7;
		for (let i = 0; i < 5000; i++) {
			const s = 1 + k1 * c[0] + k2 * c[1];
			c = [
				0.5 * c[0] + 0.5 * (100 / (1 + (dose * q1 * k1) / s)),
				0.5 * c[1] + 0.5 * (80 / (1 + (dose * q2 * k2) / s)),
			];
		}
		const { solutes } = residuesInMixture(
			"competitive Langmuir",
			[phenolic, other],
			dose,
		);
		expect(solutes[0].residue).toBeCloseTo(c[0], 9);
		expect(solutes[1].residue).toBeCloseTo(c[1], 9);
	});

	test("a target that the first solute does not reach is no forecast, and says why", () => {
		const a = doseInMixture("competitive Langmuir", [phenolic, other], {
			solute: "a",
			target: 150,
		});
		expect(a.title).toMatch(
			/^How much char brings "a" to 150 mg\/L in the mixture cannot be forecast: the target of 150 mg\/L is not below the start of 100 mg\/L\.$/,
		);
		expect(a.table.rows).toEqual([["a, in the mixture", "none", "", ""]]);
		expect(a.table.notes.join(" ")).toContain("Give a target below the start");
	});

	test("the curve of the mixture lies below that of the solute alone", () => {
		const { mixture, alone } = mixtureCurves(
			"ideal adsorbed solution",
			[phenolic, other],
			"a",
			[0.5, 1, 2, 4],
		);
		mixture.at.forEach((m, i) => {
			expect(m.removal).toBeLessThan(alone.at[i].removal);
		});
	});

	test("what makes no mixture is refused; unequal capacities are noted", () => {
		expect(() =>
			uptakesInMixture("competitive Langmuir", [phenolic], [10]),
		).toThrow(/two solutes/);
		expect(() =>
			uptakesInMixture(
				"competitive Langmuir",
				[phenolic, solute("f", [20, 0.4], 100, 50, freundlich)],
				[10, 10],
			),
		).toThrow(/ideal adsorbed solution/);
		expect(() =>
			doseInMixture("competitive Langmuir", [phenolic, other], {
				solute: "c",
				target: 3,
			}),
		).toThrow(/the solute "c"; expected one of "a", "b"/);
		const uneven = doseInMixture(
			"competitive Langmuir",
			[phenolic, solute("c", [300, 0.08], 100, 80)],
			{ solute: "a", target: 20 },
		);
		if (uneven.is === "no dose") throw new Error(uneven.because);
		expect(uneven.cautions.join(" ")).toContain("contradicts itself");
		const iodine = {
			...phenolic,
			fit: {
				...phenolic.fit,
				points: { ...phenolic.fit.points, probe: "iodine" },
			},
		};
		expect(() =>
			doseInMixture("competitive Langmuir", [iodine, other], {
				solute: "a",
				target: 20,
			}),
		).toThrow(/for iodine, which has 253.8 g\/mol/);
		expect(() =>
			doseInMixture(
				"competitive Langmuir",
				[{ ...phenolic, molarMass: 0 }, other],
				{
					solute: "a",
					target: 20,
				},
			),
		).toThrow(/a molar mass/);
		const capacity = (times: number): boolean => {
			const twin = {
				...phenolic,
				name: "twin",
				fit: {
					...phenolic.fit,
					theta: Float64Array.of(
						times * phenolic.fit.theta[0],
						phenolic.fit.theta[1],
					),
				},
			};
			const answer = doseInMixture("competitive Langmuir", [phenolic, twin], {
				solute: phenolic.name,
				target: 20,
			});
			return JSON.stringify(answer).includes("contradicts itself");
		};
		expect(capacity(1.101)).toBe(true);
		expect(capacity(1.099)).toBe(false);
		expect(() =>
			doseInMixture(
				"competitive Langmuir",
				[phenolic, { ...other, molarmass: 3 } as never],
				{ solute: "a", target: 20 },
			),
		).toThrow(/the option "molarmass", which a solute does not have/);
		expect(() =>
			residuesInMixture("competitive Langmuir", [phenolic, other], 0),
		).toThrow(/doses of 0 g\/L/);
		const above = doseInMixture("competitive Langmuir", [phenolic, other], {
			solute: "a",
			target: 120,
		});
		expect(above.is).toBe("no dose");
	});
});
