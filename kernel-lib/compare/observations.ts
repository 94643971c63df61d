import { linkedErrors, type Measured } from "../quantity";
import type { FlaskUptake } from "../uptake";
import { type FlaskErrors, flaskErrorsOf } from "./flask-errors";

/** One flask as the comparison sees it: a plain number in mg/g, and whether it is a value or only a limit. */
export interface Observation {
	readonly flask: FlaskUptake;
	readonly name: string;
	readonly treatment: string;
	/** mg/g, carried to the residue of the comparison where it was; the limit itself for a bound. */
	readonly value: number;
	readonly side: Measured<"uptake">["is"];
}

/** What the error of a measured slope makes of each flask of its treatment, mg/g for one standard uncertainty. */
export interface SlopeEffect {
	readonly treatment: string;
	readonly effect: Float64Array;
	readonly degreesOfFreedom: number;
}

/** The slopes that flasks were carried along: up to the edge those for residues near theirs, from there to the residue of the comparison those beyond. */
export interface Along {
	/** mg/L, both. */
	readonly at: number;
	readonly edge: number;
	/** By treatment. */
	readonly taken: ReadonlyMap<
		string,
		{ readonly near: number; readonly beyond: number }
	>;
}

/** The flasks of a comparison and what their measuring errors have in common; index i of `errors` is observation i. */
export interface Observations {
	readonly list: readonly Observation[];
	readonly errors: FlaskErrors;
	/** Of treatments whose slope was measured; empty where nothing was carried. */
	readonly slopes: readonly SlopeEffect[];
	/** What they were carried along; along nothing where each stands at its own residue. */
	readonly along: Along;
}

/** A flask with the standard uncertainty of its number from the readings, mg/g, for drawing. */
export interface DrawnFlask extends Observation {
	readonly uncertainty: number;
}

export function drawnFlasks({ list, errors }: Observations): DrawnFlask[] {
	return list.map((o, i) => ({
		...o,
		uncertainty: Math.sqrt(
			errors.shared.reduce(
				(sum, s) => sum + s.effect[i] ** 2,
				errors.ownVariance[i] + errors.replicateVariance[i],
			),
		),
	}));
}

/** The flasks as they stand, each at its own residue. */
export function observationsOf(uptakes: readonly FlaskUptake[]): Observations {
	const quantities = uptakes.map((u) => u.uptake.quantity.to("mg/g"));
	return {
		list: uptakes.map((u, i) => ({
			flask: u,
			name: u.flask.name,
			treatment: u.flask.treatment,
			value: quantities[i].value,
			side: u.uptake.is,
		})),
		errors: flaskErrorsOf(
			linkedErrors(quantities.map((q) => [q, q] as const)),
			new Float64Array(uptakes.length).fill(1),
			new Float64Array(uptakes.length),
		),
		slopes: [],
		along: { at: 0, edge: 0, taken: new Map() },
	};
}
