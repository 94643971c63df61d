import type { Measured, SharedErrors } from "../quantity";
import { sharedErrors } from "../quantity";
import type { FlaskUptake } from "../uptake";

/** One flask as the comparison sees it: a plain number in mg/g, and whether it is a value or only a limit. */
export interface Observation {
	readonly flask: FlaskUptake;
	readonly name: string;
	readonly treatment: string;
	/** mg/g; the limit itself for a bound. */
	readonly value: number;
	readonly side: Measured<"uptake">["is"];
}

/** The flasks of a comparison and what their measuring errors have in common; index i of `errors` is observation i. */
export interface Observations {
	readonly list: readonly Observation[];
	readonly errors: SharedErrors;
}

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
		errors: sharedErrors(quantities),
	};
}
