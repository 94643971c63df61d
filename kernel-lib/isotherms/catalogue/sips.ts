import { defineModel } from "../../fit";
import type { Isotherm } from "./isotherm";
import { notBelowZero, plateauAffinityBreadth } from "./plateau-parameters";
import { exponentials, logarithms, saturatingStart } from "./start-values";

const parameters = plateauAffinityBreadth(
	{
		name: "K_S",
		latex: "K_S",
		meaning: "1/K_S is the concentration of half the plateau",
	},
	{ name: "n", latex: "n", meaning: "breadth of the sites; 1 is Langmuir" },
);

/** q = q_max (K_S C)^n / (1 + (K_S C)^n). */
export const sips: Isotherm = {
	name: "Sips",
	equation: "q = q_max (K_S C)^n / (1 + (K_S C)^n)",
	latex: "q = \\frac{q_{max}\\,(K_S C)^{n}}{1 + (K_S C)^{n}}",
	parameters,
	source: "R. Sips, J. Chem. Phys. 16 (1948) 490; from memory",
	limits:
		"Freundlich below, a plateau above. Needs points near the plateau, or q_max and K_S run away together.",
	notFor: "It has no Henry range: not for extrapolation to traces.",
	plateau: { is: "at", symbol: "q_max", uptake: (p) => p[0] },
	highestConcentration: Number.POSITIVE_INFINITY,
	model: defineModel({
		name: "Sips",
		formula: "q = q_max (K_S C)^n / (1 + (K_S C)^n)",
		parameters: notBelowZero(parameters),
		prepare: logarithms,
		evaluate: (p, logC, out) => {
			const logK = Math.log(p[1]);
			for (let i = 0; i < out.length; i++) {
				// 1/(1 + u^-1) stays finite however large u grows
				out[i] = p[0] / (1 + Math.exp(-p[2] * (logK + logC[i])));
			}
		},
		derivatives: (p, logC, out) => {
			const m = logC.length;
			const logK = Math.log(p[1]);
			for (let i = 0; i < m; i++) {
				const z = logK + logC[i];
				const cover = 1 / (1 + Math.exp(-p[2] * z));
				const bell = p[0] * cover * (1 - cover);
				out[i] = cover;
				out[m + i] = (bell * p[2]) / p[1];
				out[2 * m + i] = bell === 0 ? 0 : bell * z;
			}
		},
		start: (logC, y, out) => {
			const { plateau, affinity } = saturatingStart(exponentials(logC), y);
			out[0] = plateau;
			out[1] = affinity;
			out[2] = 0.8;
		},
	}),
	slope: (p, c) => {
		const cover = 1 / (1 + Math.exp(-p[2] * Math.log(p[1] * c)));
		return (p[0] * p[2] * cover * (1 - cover)) / c;
	},
};
