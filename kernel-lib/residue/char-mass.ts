import type { Flask } from "../bench";
import {
	kept,
	minus,
	named,
	one,
	per,
	plus,
	type Quantity,
	times,
} from "../quantity";

export interface CharMass {
	readonly mass: Quantity<"mass">;
	readonly perGram: "dry char" | "char as weighed";
	/** Water that came in with wet char; recorded only where the moisture is. */
	readonly water:
		| { readonly known: true; readonly mass: Quantity<"mass"> }
		| { readonly known: false };
}

/**
 * The mass of char that an uptake is divided by: dry, where the sheet says how; else as weighed.
 * Wet basis: m_dry = m (1 - w). Dry basis: m_dry = m / (1 + w).
 * Only for flasks that have a char mass: the checks of the sheet see to it.
 */
export const charMassOf: (flask: Flask) => CharMass = kept((flask: Flask) => {
	if (!flask.charMass.recorded)
		throw new Error(`Flask ${flask.name} has no char mass.`);
	const weighed = flask.charMass.value;
	if (flask.massBasis === "dry")
		return { mass: weighed, perGram: "dry char", water: { known: false } };
	if (!flask.moisture.recorded)
		return {
			mass: weighed,
			perGram: "char as weighed",
			water: { known: false },
		};
	const { fraction, basis } = flask.moisture.value;
	const dry =
		basis === "wet"
			? times(weighed, minus(one, fraction))
			: per(weighed, plus(one, fraction));
	const mass = named(dry, "m_{dry}", `dry char in flask ${flask.name}`);
	return {
		mass,
		perGram: "dry char",
		water: { known: true, mass: minus(weighed, mass) },
	};
});
