import { defineModel } from "../../fit";
import type { Isotherm } from "./isotherm";

/** q = K_H C. */
export const henry: Isotherm = {
	name: "Henry",
	equation: "q = K_H C",
	latex: "q = K_H\\,C",
	parameters: [
		{
			name: "K_H",
			latex: "K_H",
			unit: "L/g",
			meaning: "distribution constant",
		},
	],
	source:
		"W. Henry, Phil. Trans. R. Soc. 93 (1803) 29, by analogy; from memory",
	limits: "Holds at the dilute end of any isotherm with independent sites.",
	notFor: "It has no plateau: never extrapolate it upwards.",
	plateau: { is: "none" },
	highestConcentration: Number.POSITIVE_INFINITY,
	model: defineModel({
		name: "Henry",
		formula: "q = K_H C",
		parameters: [{ name: "K_H", unit: "L/g", lower: 0 }],
		evaluate: (p, x, out) => {
			for (let i = 0; i < out.length; i++) out[i] = p[0] * x[i];
		},
		derivatives: (_p, x, out) => {
			for (let i = 0; i < out.length; i++) out[i] = x[i];
		},
		start: (x, y, out) => {
			let xy = 0;
			let xx = 0;
			for (let i = 0; i < y.length; i++) {
				xy += x[i] * y[i];
				xx += x[i] * x[i];
			}
			out[0] = xx > 0 ? xy / xx : 1;
		},
	}),
	slope: (p) => p[0],
};
