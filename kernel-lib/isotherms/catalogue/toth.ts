import { defineModel } from "../../fit";
import type { Isotherm } from "./isotherm";
import { notBelowZero, plateauAffinityBreadth } from "./plateau-parameters";
import { exponentials, logarithms, saturatingStart } from "./start-values";

/** ln(1 + exp(v)) without overflow. */
function softPlus(v: number): number {
	return v > 0 ? v + Math.log1p(Math.exp(-v)) : Math.log1p(Math.exp(v));
}

const parameters = plateauAffinityBreadth(
	{
		name: "K_T",
		latex: "K_T",
		meaning: "affinity; q_max K_T is the Henry slope",
	},
	{ name: "t", latex: "t", meaning: "evenness of the sites; 1 is Langmuir" },
);

/** q = q_max K_T C / (1 + (K_T C)^t)^(1/t). */
export const toth: Isotherm = {
	name: "Toth",
	equation: "q = q_max K_T C / (1 + (K_T C)^t)^(1/t)",
	latex: "q = \\frac{q_{max}\\,K_T C}{\\left(1 + (K_T C)^{t}\\right)^{1/t}}",
	parameters,
	source: "J. Toth, Acta Chim. Acad. Sci. Hung. 69 (1971) 311; from memory",
	limits:
		"A Henry range below and a plateau above, unevenly spread sites between.",
	notFor:
		"With t small the plateau lies far beyond any data: do not quote q_max then.",
	plateau: { is: "at", symbol: "q_max", uptake: (p) => p[0] },
	highestConcentration: Number.POSITIVE_INFINITY,
	model: defineModel({
		name: "Toth",
		formula: "q = q_max K_T C / (1 + (K_T C)^t)^(1/t)",
		parameters: notBelowZero(parameters),
		prepare: logarithms,
		evaluate: (p, logC, out) => {
			const logK = Math.log(p[1]);
			const t = p[2];
			for (let i = 0; i < out.length; i++) {
				const z = logK + logC[i];
				out[i] = p[0] * Math.exp(z - softPlus(t * z) / t);
			}
		},
		derivatives: (p, logC, out) => {
			const m = logC.length;
			const logK = Math.log(p[1]);
			const t = p[2];
			for (let i = 0; i < m; i++) {
				const z = logK + logC[i];
				const v = t * z;
				const e = Math.exp(-Math.abs(v));
				const soft = Math.max(v, 0) + Math.log1p(e);
				const cover = Math.exp(z - soft / t);
				const free = (v > 0 ? e : 1) / (1 + e);
				out[i] = cover;
				out[m + i] = (p[0] * cover * free) / p[1];
				out[2 * m + i] =
					cover === 0
						? 0
						: p[0] * cover * (soft / (t * t) - ((1 - free) * z) / t);
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
		const z = Math.log(p[1] * c);
		const cover = Math.exp(z - softPlus(p[2] * z) / p[2]);
		return (p[0] * cover) / (c * (1 + Math.exp(p[2] * z)));
	},
};
