import type { DerivativesOverArray, Model } from "../../fit";

/** What a symbol of an isotherm means, and its unit when C is in mg/L and q in mg/g. */
export interface IsothermParameter {
	readonly name: string;
	readonly latex: string;
	readonly unit: string;
	readonly meaning: string;
}

/** The uptake that a curve tends to at large C. */
export type Plateau =
	| {
			readonly is: "at";
			/** As it stands in the equation. */
			readonly symbol: string;
			readonly uptake: (parameters: Float64Array) => number;
	  }
	| { readonly is: "none" };

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
	readonly plateau: Plateau;
	/** Concentration (mg/L) below which the form holds; Infinity for most. */
	readonly highestConcentration: number;
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
	derivativesOver(isotherm)(
		parameters,
		isotherm.model.prepare(Float64Array.of(concentration)),
		out,
	);
	return out;
}

/** Relative step of the numerical derivatives: truncation and rounding are both near 1e-12 there. */
const relativeStep = 3e-4;

/** dq/dtheta over whole arrays: the model's own, or central differences of fourth order (Abramowitz and Stegun, 25.3.6) for a curve that comes without. */
export function derivativesOver(isotherm: Isotherm): DerivativesOverArray {
	const { derivatives, evaluate } = isotherm.model;
	if (derivatives.kind === "given") return derivatives.fill;
	return (parameters, x, out) => {
		const n = out.length / parameters.length;
		const moved = parameters.slice();
		const values = new Float64Array(n);
		out.fill(0);
		for (let j = 0; j < parameters.length; j++) {
			const h = relativeStep * (Math.abs(parameters[j]) || 1);
			for (const [shift, weight] of fourthOrder) {
				moved[j] = parameters[j] + shift * h;
				evaluate(moved, x, values);
				for (let i = 0; i < n; i++)
					out[j * n + i] += (weight * values[i]) / (12 * h);
			}
			moved[j] = parameters[j];
		}
	};
}

const fourthOrder: readonly (readonly [number, number])[] = [
	[-2, 1],
	[-1, -8],
	[1, 8],
	[2, -1],
];

/** dq/dC of a curve at one concentration by the same differences; one-sided near 0 is avoided, since the step goes with C. */
export function numericalSlope(
	uptake: (concentration: number) => number,
	concentration: number,
): number {
	const h = relativeStep * (concentration || 1e-6);
	let sum = 0;
	for (const [shift, weight] of fourthOrder)
		sum += weight * uptake(concentration + shift * h);
	return sum / (12 * h);
}
