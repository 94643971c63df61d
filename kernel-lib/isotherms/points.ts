import type { NotKnown } from "../quantity";
import type { FlaskUptake } from "../uptake";

/** Errors of one flask alone (its titre, its weighing, its own deliveries): variances and covariance of concentration (mg/L) and uptake (mg/g). */
export interface OwnErrors {
	readonly concentration: number;
	readonly uptake: number;
	readonly covariance: number;
}

/**
 * The mass balance of a flask: whatever residue C (mg/L) it shows, its uptake is intercept - slope C. Isotherm and balance line meet at the residue that the flask should show.
 */
export type BalanceLine =
	| {
			readonly is: "known";
			/** mg/g: the uptake if nothing were left in solution. */
			readonly intercept: number;
			/** L/g: liquid per gram of char, losses included. */
			readonly slope: number;
	  }
	| NotKnown;

/** One flask on the way to an isotherm. */
export interface IsothermPoint {
	readonly flask: string;
	/** A flask that ran dry has no residue that could be read, only one that it does not exceed. */
	readonly is: "reading" | "below detection";
	/** mg/L; for a flask that ran dry, the most that it could hold unseen. */
	readonly concentration: number;
	/** mg/g at that concentration; for a flask that ran dry, "at least". */
	readonly uptake: number;
	readonly balance: BalanceLine;
	readonly own: OwnErrors;
}

/** An error that several flasks lean on: a titrant, a calibration, a blank. One standard uncertainty of it moves concentration and uptake of each point by so much. */
export interface SharedEffect {
	/** Identity of the input, the same in every set of points that leans on it. */
	readonly key: string;
	readonly what: string;
	readonly degreesOfFreedom: number;
	/** mg/L, one for each point. */
	readonly concentration: Float64Array;
	/** mg/g, one for each point. */
	readonly uptake: Float64Array;
}

/** Points of one treatment with all that the chain knows of their errors. */
export interface IsothermPoints {
	/** The treatment. */
	readonly name: string;
	/** What is taken up: "iodine", "methylene blue"; "" for numbers that were typed in without its name. */
	readonly probe: string;
	/** The trial that they are from, by its file and the hash of what stands in it; both "" for numbers that were typed in. */
	readonly file: string;
	readonly hash: string;
	readonly points: readonly IsothermPoint[];
	readonly shared: readonly SharedEffect[];
	/** The flasks behind the points; empty for numbers that were typed in. */
	readonly flasks: readonly FlaskUptake[];
	/** Flasks that do not enter, and why. */
	readonly leftOut: readonly LeftOut[];
}

/** A flask that cannot be a point, or was not to be one. */
export interface LeftOut {
	readonly flask: string;
	readonly because: string;
}
