import type { Fit, FitOptions } from "../fit";
import type { Refit } from "./moved-points";
import type { IsothermPoint, SharedEffect } from "./points";
import type { Row } from "./shared-errors";

/** What a fit of either kind hands on. */
export interface RawFit {
	/** One fit for each set of points, with errors from all sets together. */
	readonly fits: readonly Fit[];
	/** All sets together; the fit itself where there is one set. */
	readonly combined: Fit;
	/** index[set][j]: place of the isotherm's parameter j among the combined ones. */
	readonly index: readonly (readonly number[])[];
	/** All points that entered, set after set; likewise the lists below. */
	readonly used: readonly IsothermPoint[];
	/** What the curve gives each point, in the unit of what was fitted: residue (mg/L) or uptake (mg/g). */
	readonly expected: Float64Array;
	/** Standard deviation of each point about the curve, in the same unit. */
	readonly deviations: Float64Array;
	/** The same before it is scaled by the scatter. */
	readonly weights: Float64Array;
	/** Of the combined parameters. */
	readonly rows: readonly Row[];
	/** Shared errors over the points that entered, each once. */
	readonly effects: readonly SharedEffect[];
	/** What (J'J)^-1 of the rows is multiplied by to give the engine's covariance. */
	readonly variance: number;
	/** The scale over the one that the engine's errors rest on: it knows nothing of shared errors, and takes what they do to the residuals for scatter. */
	readonly besideEngine: number;
	/** Of the scatter; Infinity where the errors were given. */
	readonly degreesOfFreedom: number;
	/** Scatter about the curve beside the shared errors, as a multiple of what the reading errors explain; 1 where it was not estimated. */
	readonly scale: number;
	readonly scaleFrom: "scatter" | "reading errors";
	readonly refit: Refit;
}

/** Weights that come from outside, where several curves are to be judged alike: standard deviations in mg/L, one for each point. */
export type GivenWeights =
	| { readonly is: "none" }
	| { readonly is: "given"; readonly deviations: Float64Array };

export interface ResidueFitOptions {
	readonly engine: FitOptions;
	readonly confidence: number;
	readonly sigmaIsAbsolute: boolean;
	readonly weights: GivenWeights;
	/** Parameters that all sets have in common; only for several sets. */
	readonly shared: readonly string[];
}

/** Start values for the next fit of the same points. */
export function startingFrom(engine: FitOptions, from: Fit): FitOptions {
	return from.theta.every(Number.isFinite)
		? {
				...engine,
				start: Object.fromEntries(
					from.parameters
						.filter((p) => p.role === "free")
						.map((p) => [p.name, p.value]),
				),
			}
		: engine;
}
