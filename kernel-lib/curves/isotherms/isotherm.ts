import type { Model } from "../../fit";

/** What a symbol of an isotherm means, and its unit when C is in mg/L and q in mg/g. */
export interface IsothermParameter {
	readonly name: string;
	readonly latex: string;
	readonly unit: string;
	readonly meaning: string;
}

/** One isotherm of the catalogue: uptake q at equilibrium with a residual concentration C. */
export interface Isotherm {
	readonly name: string;
	/** The equation, plain and as LaTeX. */
	readonly equation: string;
	readonly latex: string;
	readonly parameters: readonly IsothermParameter[];
	/** The original paper, from memory unless said otherwise. */
	readonly source: string;
	/** Where the form holds and where it stops making sense. */
	readonly limits: string;
	readonly notFor: string;
	/** For the fit engine: curve, exact derivatives, start values from the data. */
	readonly model: Model;
	/** dq/dC at one concentration, needed where the isotherm meets a flask's balance line. */
	readonly slope: (parameters: Float64Array, concentration: number) => number;
}

/** q at one concentration; plain arithmetic on one point, not for inner loops. */
export function uptakeAt(
	isotherm: Isotherm,
	parameters: Float64Array,
	concentration: number,
): number {
	const out = new Float64Array(1);
	isotherm.model.evaluate(
		parameters,
		isotherm.model.prepare(Float64Array.of(concentration)),
		out,
	);
	return out[0];
}

/** dq/dtheta at one concentration. */
export function derivativesAt(
	isotherm: Isotherm,
	parameters: Float64Array,
	concentration: number,
): Float64Array {
	const out = new Float64Array(parameters.length);
	if (isotherm.model.derivatives.kind === "given")
		isotherm.model.derivatives.fill(
			parameters,
			isotherm.model.prepare(Float64Array.of(concentration)),
			out,
		);
	return out;
}
