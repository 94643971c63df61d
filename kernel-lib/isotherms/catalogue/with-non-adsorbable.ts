import { defineModel } from "../../fit";
import { derivativesOver, type Isotherm } from "./isotherm";

/** Name of the concentration that no dose takes away. */
export const nonAdsorbable = "C_n";

/** An isotherm over a background that the char does not take: of a residue C, the part C_n is not adsorbable, and the rest follows the isotherm, q = f(C - C_n). C_n is one number (mg/L) for flasks of one water. */
export function withNonAdsorbable(isotherm: Isotherm): Isotherm {
	const { model } = isotherm;
	const fill = derivativesOver(isotherm);
	const rest = (x: Float64Array, background: number): Float64Array =>
		model.prepare(x.map((c) => Math.max(c - background, 0)));
	const own = (p: Float64Array): Float64Array => p.subarray(0, p.length - 1);
	const slope = (p: Float64Array, c: number): number => {
		const above = c - p[p.length - 1];
		return above > 0 ? isotherm.slope(own(p), above) : 0;
	};
	return {
		...isotherm,
		name: `${isotherm.name} over a non-adsorbable background`,
		equation: isotherm.equation.replaceAll(/\bC\b/g, "(C - C_n)"),
		latex: isotherm.latex.replaceAll(
			/(?<![A-Za-z\\_])C(?![A-Za-z_])/g,
			"(C-C_n)",
		),
		parameters: [
			...isotherm.parameters,
			{
				name: nonAdsorbable,
				latex: "C_n",
				unit: "mg/L",
				meaning: "concentration that the char does not take up at any dose",
			},
		],
		limits: `${isotherm.limits} The background is one concentration: flasks of one water, not diluted differently.`,
		notFor:
			"What looks like a background may also be a second solute that is held weakly, or slow uptake; more char or a longer contact would tell.",
		plateau:
			isotherm.plateau.is === "at"
				? {
						...isotherm.plateau,
						uptake: (
							(of) => (p: Float64Array) =>
								of(own(p))
						)(isotherm.plateau.uptake),
					}
				: isotherm.plateau,
		model: defineModel({
			name: `${model.name} over a background`,
			formula: model.formula,
			parameters: [
				...model.parameters,
				{ name: nonAdsorbable, unit: "mg/L", lower: 0 },
			],
			evaluate: (p, x, out) =>
				model.evaluate(own(p), rest(x, p[p.length - 1]), out),
			derivatives: (p, x, out) => {
				const n = x.length;
				const size = p.length;
				fill(own(p), rest(x, p[size - 1]), out.subarray(0, (size - 1) * n));
				for (let i = 0; i < n; i++) {
					const above = x[i] > p[size - 1];
					out[(size - 1) * n + i] = above ? -slope(p, x[i]) : 0;
					for (let j = 0; j < size - 1; j++) if (!above) out[j * n + i] = 0;
				}
			},
			start: (x, y, out) => {
				const least = x.reduce((a, b) => Math.min(a, b));
				const background = Math.max(0, least / 2);
				if (model.start.kind === "from data")
					model.start.guess(
						rest(x, background),
						y,
						out.subarray(0, out.length - 1),
					);
				out[out.length - 1] = background;
			},
		}),
		slope,
	};
}
