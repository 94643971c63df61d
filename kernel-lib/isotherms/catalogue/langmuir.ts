import { defineModel } from "../../fit";
import type { Isotherm } from "./isotherm";
import { notBelowZero, plateauUptake } from "./plateau-parameters";
import { saturatingStart } from "./start-values";

const parameters = [
	plateauUptake,
	{
		name: "K_L",
		latex: "K_L",
		unit: "L/mg",
		meaning: "affinity; 1/K_L is the concentration of half the plateau",
	},
];

/** q = q_max K_L C / (1 + K_L C). */
export const langmuir: Isotherm = {
	name: "Langmuir",
	equation: "q = q_max K_L C / (1 + K_L C)",
	latex: "q = \\frac{q_{max}\\,K_L\\,C}{1 + K_L\\,C}",
	parameters,
	source: "I. Langmuir, J. Am. Chem. Soc. 40 (1918) 1361; from memory",
	limits:
		"One kind of site, one layer, no interaction. The plateau is known only if some points come near it.",
	notFor:
		"A good fit does not prove one layer or one kind of site; do not read a surface area off q_max without the caveats that go with it.",
	plateau: { is: "at", symbol: "q_max", uptake: (p) => p[0] },
	highestConcentration: Number.POSITIVE_INFINITY,
	model: defineModel({
		name: "Langmuir",
		formula: "q = q_max K_L C / (1 + K_L C)",
		parameters: notBelowZero(parameters),
		evaluate: (p, x, out) => {
			const qmax = p[0];
			const k = p[1];
			for (let i = 0; i < out.length; i++) {
				const kc = k * x[i];
				out[i] = (qmax * kc) / (1 + kc);
			}
		},
		derivatives: (p, x, out) => {
			const n = x.length;
			const qmax = p[0];
			const k = p[1];
			for (let i = 0; i < n; i++) {
				const d = 1 / (1 + k * x[i]);
				out[i] = k * x[i] * d;
				out[n + i] = qmax * x[i] * d * d;
			}
		},
		start: (x, y, out) => {
			const { plateau, affinity } = saturatingStart(x, y);
			out[0] = plateau;
			out[1] = affinity;
		},
	}),
	slope: (p, c) => (p[0] * p[1]) / (1 + p[1] * c) ** 2,
};
