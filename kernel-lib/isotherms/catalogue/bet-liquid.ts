import { defineModel } from "../../fit";
import { numberOption, requireArgument } from "../../quantity";
import type { Isotherm } from "./isotherm";
import { saturatingStart } from "./start-values";

/**
 * q = q_m c_B C / ((C_s - C)(1 + (c_B - 1) C/C_s)), many layers from solution.
 *
 * @param saturation C_s, the solubility, in the unit of C
 * @throws ProblemError for a solubility that is not above zero
 * @example
 * isotherms.betLiquid(1300).highestConcentration // => 1300
 */
export function betLiquid(saturation: number): Isotherm {
	requireArgument(
		saturation,
		numberOption(0, Number.POSITIVE_INFINITY),
		"betLiquid",
	);
	return {
		name: "BET (liquid phase)",
		equation: "q = q_m c_B C / ((C_s - C)(1 + (c_B - 1) C/C_s))",
		latex:
			"q = \\frac{q_m\\,c_B\\,C}{(C_s - C)\\left(1 + (c_B - 1)\\,C/C_s\\right)}",
		parameters: [
			{
				name: "q_m",
				latex: "q_m",
				unit: "mg/g",
				meaning: "uptake in one full layer",
			},
			{
				name: "c_B",
				latex: "c_B",
				unit: "",
				meaning: "how much more the first layer binds than the next",
			},
		],
		source:
			"S. Brunauer, P. H. Emmett and E. Teller, J. Am. Chem. Soc. 60 (1938) 309, carried over to solutions; from memory",
		limits: "C below the solubility C_s, which must be known.",
		notFor:
			"Not a surface area from gas uptake; a solute covers, blocks and dissolves differently.",
		plateau: { is: "none" },
		highestConcentration: saturation,
		model: defineModel({
			name: "BET (liquid phase)",
			formula: "q = q_m c_B C / ((C_s - C)(1 + (c_B - 1) C/C_s))",
			parameters: [
				{ name: "q_m", unit: "mg/g", lower: 0 },
				{ name: "c_B", unit: "", lower: 0 },
			],
			// relative concentration
			prepare: (c) => c.map((v) => v / saturation),
			evaluate: (p, r, out) => {
				for (let i = 0; i < out.length; i++)
					out[i] =
						(p[0] * p[1] * r[i]) / ((1 - r[i]) * (1 + (p[1] - 1) * r[i]));
			},
			derivatives: (p, r, out) => {
				const n = r.length;
				for (let i = 0; i < n; i++) {
					const layers = 1 / (1 - r[i]);
					const d = 1 / (1 + (p[1] - 1) * r[i]);
					out[i] = p[1] * r[i] * layers * d;
					out[n + i] = p[0] * r[i] * layers * d * (1 - p[1] * r[i] * d);
				}
			},
			start: (r, y, out) => {
				// y (1 - r) is a Langmuir curve in r but for a factor
				const single = y.map((v, i) => v * (1 - r[i]));
				const { plateau, affinity } = saturatingStart(r, single);
				out[0] = plateau;
				out[1] = Math.max(1, affinity);
			},
		}),
		slope: (p, c) => {
			const r = c / saturation;
			const q = (p[0] * p[1] * r) / ((1 - r) * (1 + (p[1] - 1) * r));
			return (
				(q * (1 / r + 1 / (1 - r) - (p[1] - 1) / (1 + (p[1] - 1) * r))) /
				saturation
			);
		},
	};
}
