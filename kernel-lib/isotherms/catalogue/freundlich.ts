import { defineModel } from "../../fit";
import type { Isotherm } from "./isotherm";
import { logarithms, powerStart } from "./start-values";

/** q = K_F C^(1/n). */
export const freundlich: Isotherm = {
	name: "Freundlich",
	equation: "q = K_F C^(1/n)",
	latex: "q = K_F\\,C^{1/n}",
	parameters: [
		{
			name: "K_F",
			latex: "K_F",
			unit: "(mg/g)(L/mg)^(1/n)",
			meaning: "uptake at C = 1 in the unit used",
		},
		{ name: "1/n", latex: "1/n", unit: "", meaning: "exponent" },
	],
	source: "H. Freundlich, Z. Phys. Chem. 57 (1906) 385; from memory",
	limits:
		"Many kinds of sites; has neither a plateau nor a Henry range. K_F depends on the unit of C.",
	notFor:
		"Outside the measured range of C it promises too much above and too little below.",
	plateau: { is: "none" },
	highestConcentration: Number.POSITIVE_INFINITY,
	model: defineModel({
		name: "Freundlich",
		formula: "q = K_F C^(1/n)",
		parameters: [
			{ name: "K_F", unit: "(mg/g)(L/mg)^(1/n)", lower: 0 },
			{ name: "1/n", unit: "", lower: 0 },
		],
		prepare: logarithms,
		evaluate: (p, logC, out) => {
			for (let i = 0; i < out.length; i++)
				out[i] = p[0] * Math.exp(p[1] * logC[i]);
		},
		derivatives: (p, logC, out) => {
			const n = logC.length;
			for (let i = 0; i < n; i++) {
				const power = Math.exp(p[1] * logC[i]);
				out[i] = power;
				out[n + i] = power === 0 ? 0 : p[0] * power * logC[i];
			}
		},
		start: (logC, y, out) => {
			const { scale, exponent } = powerStart(logC, y);
			out[0] = scale;
			out[1] = exponent;
		},
	}),
	slope: (p, c) => p[0] * p[1] * c ** (p[1] - 1),
};
