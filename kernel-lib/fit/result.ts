import type { MaybeKnown } from "../quantity";
import type { InformationCriteria } from "./criteria";
import type { Flag } from "./flag";
import type { Task } from "./task";

/** One end of an interval. */
export type Limit =
	| { readonly kind: "closed"; readonly value: number }
	/** The data set no end here; the reason says how far was looked. */
	| { readonly kind: "open"; readonly reason: string }
	/** The interval ends at the parameter's own limit, not at one set by the data. */
	| { readonly kind: "at its limit"; readonly value: number };

export interface Interval {
	readonly low: Limit;
	readonly high: Limit;
	readonly confidence: number;
	/** How it was obtained, in words. */
	readonly method: string;
}

export interface FittedParameter {
	readonly name: string;
	readonly unit: string;
	readonly value: number;
	readonly role: "free" | "fixed";
	readonly standardError: MaybeKnown<number>;
	/** From the standard error; symmetric, and right as far as the curve is straight in the parameter. */
	readonly interval: MaybeKnown<Interval>;
	readonly start: number;
	readonly limit: "none" | "at its lower limit" | "at its upper limit";
}

/** A test: its statistic and its p-value. */
export interface TestResult {
	readonly name: string;
	readonly statistic: number;
	readonly p: number;
	/** What it says, in words. */
	readonly meaning: string;
}

/**
 * What a fit covers. A fit of several data sets cannot predict (its x does not say which set is meant); one of its sets
 * can, but cannot be resampled or profiled alone.
 */
export type FitScope =
	| "one data set"
	| "several data sets"
	| "one of several data sets";

/** The outcome of one fit. Numbers that do not exist are "not known" and say why. */
export interface Fit {
	readonly kind: "fit";
	readonly scope: FitScope;
	readonly task: Task;
	readonly parameters: readonly FittedParameter[];
	/** Parameter values in the order of the model, as the model's functions take them. */
	readonly theta: Float64Array;
	/** Covariance of the parameters, row by row, zero for fixed ones and those at a limit. */
	readonly covariance: MaybeKnown<Float64Array>;
	/** Correlation of the parameters, row by row. */
	readonly correlation: MaybeKnown<Float64Array>;
	/** Condition of the Jacobian with columns of length 1: above about 1e3 some parameters are hard to tell apart. */
	readonly condition: MaybeKnown<number>;
	readonly points: number;
	readonly freeParameters: number;
	readonly degreesOfFreedom: number;
	/** Sum of squared residuals: in the unit of y squared, or without unit if sigmas were given. */
	readonly residualSumOfSquares: number;
	/** Root of the sum over the degrees of freedom: in the unit of y, or as a multiple of sigma if sigmas were given. */
	readonly residualSD: MaybeKnown<number>;
	readonly criteria: InformationCriteria;
	/** Descriptive only: 1 - (sum of squares about the curve) / (about the mean). Never judge a fit by it alone. */
	readonly rSquared: MaybeKnown<number>;
	readonly fitted: Float64Array;
	/** y less fitted, in the unit of y. */
	readonly residuals: Float64Array;
	/** Residuals over their own standard deviation (internally studentised). */
	readonly standardisedResiduals: MaybeKnown<Float64Array>;
	readonly leverage: MaybeKnown<Float64Array>;
	/** Weight that a robust loss gave each point; all 1 for least squares. */
	readonly lossWeights: Float64Array;
	readonly converged: Flag;
	readonly errorsAvailable: Flag;
	readonly atLimit: Flag;
	/** Whether the data settle every parameter. */
	readonly determined: Flag;
	/** Relative offset of Bates and Watts at the end: how far the residuals still point along the curve. */
	readonly relativeOffset: number;
	readonly evaluations: number;
	/** Descents from different start values. */
	readonly descents: number;
	/** What a reader should know before using a number from this fit; empty if nothing. */
	readonly cautions: readonly string[];
}

/** Why one set of a shared fit has no refits of its own. */
export const needsAllSets =
	"all data sets share parameters, so they must be refitted together; take the combined fit";
