import { defineModel } from "../../fit";
import type { Isotherm } from "./isotherm";
import { line, logarithms } from "./start-values";

/** q = B ln(A C), with B = R T / b. */
export const temkin: Isotherm = {
	name: "Temkin",
	equation: "q = B ln(A C), B = R T / b",
	latex: "q = B\\,\\ln(A\\,C),\\quad B = RT/b",
	parameters: [
		{
			name: "B",
			latex: "B",
			unit: "mg/g",
			meaning: "gain in uptake when C grows e-fold",
		},
		{
			name: "A",
			latex: "A",
			unit: "L/mg",
			meaning: "1/A is the concentration at which the line meets zero",
		},
	],
	source:
		"M. I. Temkin and V. Pyzhev, Acta Physicochim. URSS 12 (1940) 217; from memory",
	limits: "The middle of an isotherm only, where heat falls evenly with cover.",
	notFor: "Below C = 1/A it turns negative; it has no plateau.",
	plateau: { is: "none" },
	highestConcentration: Number.POSITIVE_INFINITY,
	model: defineModel({
		name: "Temkin",
		formula: "q = B ln(A C)",
		parameters: [
			{ name: "B", unit: "mg/g", lower: 0 },
			{ name: "A", unit: "L/mg", lower: 0 },
		],
		prepare: logarithms,
		evaluate: (p, logC, out) => {
			const logA = Math.log(p[1]);
			for (let i = 0; i < out.length; i++) out[i] = p[0] * (logA + logC[i]);
		},
		derivatives: (p, logC, out) => {
			const n = logC.length;
			const logA = Math.log(p[1]);
			for (let i = 0; i < n; i++) {
				out[i] = logA + logC[i];
				out[n + i] = p[0] / p[1];
			}
		},
		start: (logC, y, out) => {
			const { a, b } = line(logC, y);
			out[0] = b > 0 ? b : 1;
			out[1] = b > 0 ? Math.exp(Math.min(50, Math.max(-50, a / b))) : 1;
		},
	}),
	slope: (p, c) => p[0] / c,
};
