import { defineModel } from "../../fit";
import {
	numberOption,
	requireArgument,
	requireOptions,
	wordOption,
} from "../../quantity";
import type { Isotherm } from "./isotherm";
import { line } from "./start-values";

/** Gas constant, kJ/(mol K): 8.314462618 J/(mol K), exact since the SI of 2019. */
const gasConstant = 8.314462618e-3;

/** How the potential is formed from the concentration. */
export type PotentialForm =
	/** eps = R T ln(1 + 1/C), C in mol/L: the form that is most printed; it depends on the unit of C. */
	| { readonly form: "one over C"; readonly molarMass: number }
	/** eps = R T ln(C_s/C) with the solubility C_s in the unit of C: Polanyi's potential. */
	| { readonly form: "solubility"; readonly solubility: number };

const aboveZero = numberOption(0, Number.POSITIVE_INFINITY);

const potentialRules = {
	form: wordOption("one over C", "solubility"),
	molarMass: aboveZero,
	solubility: aboveZero,
};

/**
 * q = q_s exp(-beta eps^2), aqueous form.
 *
 * @param temperature K
 * @param potential how eps is formed; for "one over C" the molar mass (g/mol) turns mg/L into mol/L (give 0.001 for data that are in mol/L already)
 * @throws ProblemError for a temperature, molar mass or solubility that is not above zero, and for a potential that does not say how it is formed
 * @example
 * isotherms.dubininRadushkevich(298.15, { form: "solubility", solubility: 1300 }).parameters[0].name // => "q_s"
 */
export function dubininRadushkevich(
	temperature: number,
	potential: PotentialForm,
): Isotherm {
	requireArgument(temperature, aboveZero, "dubininRadushkevich");
	requireOptions(potential, potentialRules, "dubininRadushkevich", [
		"form",
		potential?.form === "solubility" ? "solubility" : "molarMass",
	]);
	const rt = gasConstant * temperature;
	const potentialAt = (c: number): number =>
		potential.form === "solubility"
			? rt * Math.log(potential.solubility / c)
			: rt * Math.log1p((1000 * potential.molarMass) / c);
	const potentialSlope = (c: number): number =>
		potential.form === "solubility"
			? -rt / c
			: -rt / (c * (1 + c / (1000 * potential.molarMass)));
	const molar = potential.form === "one over C";
	return {
		name: "Dubinin-Radushkevich",
		equation: molar
			? "q = q_s exp(-beta eps^2), eps = R T ln(1 + 1/C), C in mol/L"
			: "q = q_s exp(-beta eps^2), eps = R T ln(C_s/C)",
		latex: `q = q_s\\,e^{-\\beta\\varepsilon^2},\\quad \\varepsilon = RT\\ln\\!\\left(${molar ? "1 + 1/C" : "C_s/C"}\\right)`,
		parameters: [
			{
				name: "q_s",
				latex: "q_s",
				unit: "mg/g",
				meaning: "uptake with the pores full",
			},
			{
				name: "beta",
				latex: "\\beta",
				unit: "mol2/kJ2",
				meaning: "1/sqrt(2 beta) is called the mean free energy, kJ/mol",
			},
		],
		source:
			"M. M. Dubinin and L. V. Radushkevich, Dokl. Akad. Nauk SSSR 55 (1947) 331, carried over to solutions; from memory",
		limits: molar
			? "The unit of C changes the curve: eps is formed with C in mol/L here."
			: "Needs the solubility, and C below it.",
		notFor:
			"The mean free energy does not tell chemical from physical binding, whatever is often written.",
		plateau: { is: "at", symbol: "q_s", uptake: (p) => p[0] },
		highestConcentration:
			potential.form === "solubility"
				? potential.solubility
				: Number.POSITIVE_INFINITY,
		model: defineModel({
			name: "Dubinin-Radushkevich",
			formula: "q = q_s exp(-beta eps^2)",
			parameters: [
				{ name: "q_s", unit: "mg/g", lower: 0 },
				{ name: "beta", unit: "mol2/kJ2", lower: 0 },
			],
			prepare: (c) => c.map((v) => potentialAt(v) ** 2),
			evaluate: (p, squared, out) => {
				for (let i = 0; i < out.length; i++)
					out[i] = p[0] * Math.exp(-p[1] * squared[i]);
			},
			derivatives: (p, squared, out) => {
				const n = squared.length;
				for (let i = 0; i < n; i++) {
					const fill = Math.exp(-p[1] * squared[i]);
					out[i] = fill;
					out[n + i] = fill === 0 ? 0 : -p[0] * squared[i] * fill;
				}
			},
			start: (squared, y, out) => {
				const some = Array.from(y.keys()).filter(
					(i) => y[i] > 0 && Number.isFinite(squared[i]),
				);
				const { a, b } = line(
					some.map((i) => squared[i]),
					some.map((i) => Math.log(y[i])),
				);
				out[0] = Math.exp(Math.min(100, a));
				out[1] = Math.max(-b, 1e-6);
			},
		}),
		slope: (p, c) => {
			const eps = potentialAt(c);
			return (
				-2 * p[1] * eps * potentialSlope(c) * p[0] * Math.exp(-p[1] * eps * eps)
			);
		},
	};
}
