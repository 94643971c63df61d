import type { IsothermParameter } from "./isotherm";

/** The plateau of Langmuir, Sips and Toth. */
export const plateauUptake: IsothermParameter = {
	name: "q_max",
	latex: "q_{max}",
	unit: "mg/g",
	meaning: "uptake on the plateau",
};

/** Plateau, affinity (L/mg) and a pure number that broadens the rise, as Sips and Toth have them. */
export function plateauAffinityBreadth(
	affinity: Pick<IsothermParameter, "name" | "latex" | "meaning">,
	breadth: Pick<IsothermParameter, "name" | "latex" | "meaning">,
): IsothermParameter[] {
	return [
		plateauUptake,
		{ ...affinity, unit: "L/mg" },
		{ ...breadth, unit: "" },
	];
}

/** The same parameters for the fit engine; none may fall below zero. */
export function notBelowZero(
	parameters: readonly IsothermParameter[],
): { readonly name: string; readonly unit: string; readonly lower: number }[] {
	return parameters.map(({ name, unit }) => ({ name, unit, lower: 0 }));
}
