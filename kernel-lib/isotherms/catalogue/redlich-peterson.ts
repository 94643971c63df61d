import { defineModel } from "../../fit";
import type { Isotherm } from "./isotherm";
import { hyperbolaStart, logarithms, saturatingStart } from "./start-values";

/** q = A C / (1 + B C^g). */
export const redlichPeterson: Isotherm = {
	name: "Redlich-Peterson",
	equation: "q = A C / (1 + B C^g), 0 <= g <= 1",
	latex: "q = \\frac{A\\,C}{1 + B\\,C^{g}},\\quad 0 \\le g \\le 1",
	parameters: [
		{ name: "A", latex: "A", unit: "L/g", meaning: "Henry slope" },
		{ name: "B", latex: "B", unit: "(L/mg)^g", meaning: "curvature" },
		{
			name: "g",
			latex: "g",
			unit: "",
			meaning: "1 is Langmuir; A/B C^(1-g) for large C",
		},
	],
	source:
		"O. Redlich and D. L. Peterson, J. Phys. Chem. 63 (1959) 1024; from memory",
	limits: "Henry below, Freundlich (or, with g = 1, a plateau) above.",
	notFor: "Unless g = 1 it has no plateau to quote.",
	plateau: { is: "none" },
	highestConcentration: Number.POSITIVE_INFINITY,
	model: defineModel({
		name: "Redlich-Peterson",
		formula: "q = A C / (1 + B C^g)",
		parameters: [
			{ name: "A", unit: "L/g", lower: 0 },
			{ name: "B", unit: "(L/mg)^g", lower: 0 },
			{ name: "g", unit: "", lower: 0, upper: 1 },
		],
		// both C and its logarithm are needed: first half C, second half ln C
		prepare: (c) => {
			const both = new Float64Array(2 * c.length);
			both.set(c);
			both.set(logarithms(c), c.length);
			return both;
		},
		evaluate: (p, x, out) => {
			const n = out.length;
			for (let i = 0; i < n; i++)
				out[i] = (p[0] * x[i]) / (1 + p[1] * Math.exp(p[2] * x[n + i]));
		},
		derivatives: (p, x, out) => {
			const n = x.length / 2;
			for (let i = 0; i < n; i++) {
				const power = Math.exp(p[2] * x[n + i]);
				const d = 1 / (1 + p[1] * power);
				const first = x[i] * d;
				const second = -p[0] * first * power * d;
				out[i] = first;
				out[n + i] = second;
				out[2 * n + i] = second === 0 ? 0 : second * p[1] * x[n + i];
			}
		},
		start: (x, y, out) => {
			const n = y.length;
			const c = x.subarray(0, n);
			const g = 0.9;
			const power = new Float64Array(n);
			for (let i = 0; i < n; i++) power[i] = Math.exp(g * x[n + i]);
			const { a, b } = hyperbolaStart(c, power, y);
			const { plateau, affinity } = saturatingStart(c, y);
			out[0] = a > 0 && b > 0 ? a : plateau * affinity;
			out[1] = a > 0 && b > 0 ? b : affinity ** g;
			out[2] = g;
		},
	}),
	slope: (p, c) => {
		const power = p[1] * c ** p[2];
		return (p[0] * (1 + power * (1 - p[2]))) / (1 + power) ** 2;
	},
};
