import type { Fit, Interval } from "../fit";
import type { MaybeKnown } from "../quantity";
import type { Isotherm } from "./catalogue/index";
import type { IsothermPoint, IsothermPoints } from "./points";
import type { SharedShift } from "./shared-errors";

/**
 * What is fitted. "balance lines": the residues themselves, each where the isotherm meets the flask's mass balance; exact, and the default wherever the flasks are known. "uptake on concentration": the ordinary fit,
 * which takes the concentrations for exact although they come from the same titres as the uptakes.
 */
export type FitMethod = "balance lines" | "uptake on concentration";

/** One parameter with what its uncertainty is made of. */
export interface IsothermEstimate {
	readonly name: string;
	readonly unit: string;
	readonly meaning: string;
	readonly value: number;
	readonly role: "free" | "fixed";
	readonly limit: "none" | "at its lower limit" | "at its upper limit";
	/** From the scatter about the curve beside the shared errors (or the reading errors, where these are absolute). */
	readonly scatter: MaybeKnown<number>;
	/** From errors that all flasks share: titrants, calibrations, blanks. */
	readonly shared: MaybeKnown<number>;
	/** Both together. */
	readonly standardError: MaybeKnown<number>;
	/** Symmetric, from the standard error. */
	readonly interval: MaybeKnown<Interval>;
	/** By profile likelihood, shared errors included; asymmetric where the curve is, open where the data set no end. The one to quote. */
	readonly profile: MaybeKnown<Interval>;
}

/** An isotherm fitted to the points of one treatment. */
export interface IsothermFit {
	readonly kind: "isotherm fit";
	readonly isotherm: Isotherm;
	readonly points: IsothermPoints;
	readonly method: FitMethod;
	readonly confidence: number;
	/** As the fit engine gave it: flags, criteria, residuals of what was fitted. Its standard errors know nothing of shared errors; those of `parameters` do. */
	readonly fit: Fit;
	readonly theta: Float64Array;
	readonly parameters: readonly IsothermEstimate[];
	/** Points that entered, and what the curve gives each in the unit of what was fitted: residue (mg/L) or uptake (mg/g). */
	readonly used: readonly IsothermPoint[];
	readonly expected: Float64Array;
	/** Standard deviation of each about the curve in that unit, what shared errors do to single points included. */
	readonly deviations: Float64Array;
	/** Covariance of the parameters from the scatter, row by row. */
	readonly scatterCovariance: MaybeKnown<Float64Array>;
	readonly sharedShifts: readonly SharedShift[];
	/** Of the scatter, seldom whole, for shared errors hide some of it; Infinity where the errors were taken as absolute. */
	readonly degreesOfFreedom: number;
	/** Scatter beside the shared errors, as a multiple of what the reading errors explain; for the ordinary fit all scatter, mg/g. */
	readonly scale: number;
	readonly scaleFrom: "scatter" | "reading errors";
	/** Standard deviations before scaling, mg/L (1 for the ordinary fit): what makes the criteria of two fits comparable. */
	readonly weights: Float64Array;
	/** Akaike's criterion with the correction for few points; bounds are in it. Comparable between fits of the same points with the same weights. */
	readonly aicc: MaybeKnown<number>;
	/** Smallest and largest residue that was read, mg/L. */
	readonly range: { readonly low: number; readonly high: number };
	/** What a reader should know before using the numbers, in plain words; the weightiest first. */
	readonly opinion: readonly string[];
}
