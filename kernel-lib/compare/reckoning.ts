/** How a difference and the ends of its interval were reckoned: what was weighed, and what was added to it. */
import type { ContrastErrors } from "./contrast-errors";
import { finite } from "./finite";
import type { Along, Observation, Observations } from "./observations";

/** One end of an interval, or the difference itself, before room is left for soaks. */
export interface Reckoning {
	/** Weighted sum of uptakes at the residue of the comparison, mg/g. */
	readonly estimate: number;
	/** What its standard error is made of, (mg/g)^2. */
	readonly variances: {
		readonly scatter: number;
		readonly shared: number;
		readonly slopes: number;
		/** Readings of single flasks, where no scatter holds them. */
		readonly readings: number;
	};
	/** 0 where nothing was estimated from scatter. */
	readonly degreesOfFreedom: number;
	readonly criticalValue: number;
	/** Expanded uncertainty (k = 2) of the limits that stand in the sum, mg/g; 0 where none does. */
	readonly ofLimits: number;
	readonly weighed: Weighed;
}

/** What a sum is made of. */
type Weighed =
	| {
			/** By the index of the flask among those compared. */
			readonly is: "flasks";
			readonly weights: Float64Array;
			/** mg/g */
			readonly values: Float64Array;
			readonly along: Along;
	  }
	| {
			/** Each read off the isotherm of its treatment. */
			readonly is: "isotherms";
			readonly treated: OnIsotherm;
			readonly control: OnIsotherm;
	  };

/** mg/g, both. */
interface OnIsotherm {
	readonly uptake: number;
	readonly standardError: number;
}

/** One flask in a difference. */
export interface WeighedFlask {
	readonly observation: Observation;
	readonly weight: number;
	/** At the residue of the comparison, mg/g. */
	readonly value: number;
	readonly along: Along;
}

export const standardErrorOf = ({ variances: v }: Reckoning): number =>
	Math.sqrt(v.scatter + v.shared + v.slopes + v.readings);

/** From the estimate to the end, mg/g. */
export const reachOf = (r: Reckoning): number =>
	r.criticalValue * standardErrorOf(r) + r.ofLimits;

const sumOfSquares = (effects: Float64Array): number =>
	effects.reduce((sum, x) => sum + x ** 2, 0);

/** A sum of flasks. */
export function reckonedFrom(
	estimate: number,
	weights: Float64Array,
	errors: ContrastErrors,
	{ list, along }: Observations,
	criticalValue: number,
	ofLimits = 0,
): Reckoning {
	return {
		estimate,
		variances: {
			scatter: errors.scatterVariance,
			shared: errors.sharedVariance,
			slopes: sumOfSquares(errors.slopeEffects),
			readings: errors.ownVariance,
		},
		degreesOfFreedom: finite(errors.degreesOfFreedom),
		criticalValue,
		ofLimits,
		weighed: {
			is: "flasks",
			weights,
			values: Float64Array.from(list, (o) => o.value),
			along,
		},
	};
}

/** The flasks of a sum, each with its weight. */
export function weighedFlasks(
	{ weighed }: Reckoning,
	list: readonly Observation[],
): readonly WeighedFlask[] {
	if (weighed.is !== "flasks") return [];
	const { weights, values, along } = weighed;
	return list.flatMap((observation, i) =>
		weights[i] === 0
			? []
			: [{ observation, weight: weights[i], value: values[i], along }],
	);
}

/** How a difference was reckoned: its estimate and both ends, or the one limit that is known. */
export type Reckoned =
	| {
			readonly is: "interval";
			readonly estimate: Reckoning;
			readonly low: Reckoning;
			readonly high: Reckoning;
	  }
	| {
			readonly is: "at least" | "at most";
			readonly limit: Reckoning;
	  }
	| { readonly is: "nothing" };

/** The difference itself, or the one limit of it that is known. */
export const firstReckoning = (
	reckoned: Exclude<Reckoned, { is: "nothing" }>,
): Reckoning =>
	reckoned.is === "interval" ? reckoned.estimate : reckoned.limit;
