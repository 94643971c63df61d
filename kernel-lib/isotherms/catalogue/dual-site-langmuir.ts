import { defineModel } from "../../fit";
import type { Isotherm } from "./isotherm";
import { saturatingStart } from "./start-values";

/** q = q_1 b_1 C / (1 + b_1 C) + q_2 b_2 C / (1 + b_2 C). */
export const dualSiteLangmuir: Isotherm = {
	name: "dual-site Langmuir",
	equation: "q = q_1 b_1 C/(1 + b_1 C) + q_2 b_2 C/(1 + b_2 C)",
	latex: "q = \\frac{q_1 b_1 C}{1 + b_1 C} + \\frac{q_2 b_2 C}{1 + b_2 C}",
	parameters: [
		{
			name: "q_1",
			latex: "q_1",
			unit: "mg/g",
			meaning: "plateau of the strong sites",
		},
		{
			name: "b_1",
			latex: "b_1",
			unit: "L/mg",
			meaning: "affinity of the strong sites",
		},
		{
			name: "q_2",
			latex: "q_2",
			unit: "mg/g",
			meaning: "plateau of the weak sites",
		},
		{
			name: "b_2",
			latex: "b_2",
			unit: "L/mg",
			meaning: "affinity of the weak sites",
		},
	],
	source: "D. Graham, J. Phys. Chem. 57 (1953) 665; from memory",
	limits:
		"Two kinds of sites. Needs about three decades of C and eight points, or the two kinds cannot be distinguished.",
	notFor: "Two kinds of sites in the fit do not prove two kinds in the char.",
	plateau: { is: "at", symbol: "q_1 + q_2", uptake: (p) => p[0] + p[2] },
	highestConcentration: Number.POSITIVE_INFINITY,
	model: defineModel({
		name: "dual-site Langmuir",
		formula: "q = q_1 b_1 C/(1 + b_1 C) + q_2 b_2 C/(1 + b_2 C)",
		parameters: [
			{ name: "q_1", unit: "mg/g", lower: 0 },
			{ name: "b_1", unit: "L/mg", lower: 0 },
			{ name: "q_2", unit: "mg/g", lower: 0 },
			{ name: "b_2", unit: "L/mg", lower: 0 },
		],
		evaluate: (p, x, out) => {
			for (let i = 0; i < out.length; i++) {
				const s = p[1] * x[i];
				const w = p[3] * x[i];
				out[i] = (p[0] * s) / (1 + s) + (p[2] * w) / (1 + w);
			}
		},
		derivatives: (p, x, out) => {
			const n = x.length;
			for (let i = 0; i < n; i++) {
				const d1 = 1 / (1 + p[1] * x[i]);
				const d2 = 1 / (1 + p[3] * x[i]);
				out[i] = p[1] * x[i] * d1;
				out[n + i] = p[0] * x[i] * d1 * d1;
				out[2 * n + i] = p[3] * x[i] * d2;
				out[3 * n + i] = p[2] * x[i] * d2 * d2;
			}
		},
		start: (x, y, out) => {
			const { plateau, affinity } = saturatingStart(x, y);
			out[0] = plateau / 2;
			out[1] = affinity * 6;
			out[2] = plateau / 2;
			out[3] = affinity / 6;
		},
	}),
	slope: (p, c) =>
		(p[0] * p[1]) / (1 + p[1] * c) ** 2 + (p[2] * p[3]) / (1 + p[3] * c) ** 2,
};
