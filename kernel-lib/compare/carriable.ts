import { kept, type LinkedErrors, linkedErrors } from "../quantity";
import type { FlaskUptake } from "../uptake";
import type { Observation } from "./observations";

/** From this relative standard uncertainty of a residue on, a flask is carried no more: it says on which side of its uptake the char lies. Our decision. */
export const mostResidueUncertainty = 0.25;

/** What carrying a flask to another residue takes. */
export interface CarriableFlask {
	readonly flask: FlaskUptake;
	readonly treatment: string;
	/** mg/g at `residue` mg/L. */
	readonly uptake: number;
	readonly residue: number;
	/** "value" where it can be carried; else what it says of the uptake at the residue of the comparison. */
	readonly side: Observation["side"];
	/** mg of the probe dosed per g of char. */
	readonly dose: number;
}

export interface Carriable {
	readonly list: readonly CarriableFlask[];
	/** First: uptake, mg/g; second: residue, mg/L; both of one titre or reading. */
	readonly errors: LinkedErrors;
}

/** Whether the residue of a flask was read well enough for carrying its uptake along a curve. */
export function readWell({ uptake, residue }: FlaskUptake): boolean {
	const c = residue.quantity.to("mg/L");
	return (
		uptake.is === "value" &&
		residue.is === "value" &&
		c.value > 0 &&
		c.standardUncertainty <= mostResidueUncertainty * c.value
	);
}

/** A residue that is hardly more than its error still says something, since uptake grows with the residue: below the one that is compared at, the char holds no less there than it held here. */
function sideOf(u: FlaskUptake, at: number): Observation["side"] {
	if (u.uptake.is !== "value") return u.uptake.is;
	if (readWell(u)) return "value";
	return u.residue.quantity.in("mg/L") <= at ? "at least" : "at most";
}

/** In the units of `Carriable`. Kept with the flasks, which several comparisons of a trial share. */
const errorsOf = kept((uptakes: readonly FlaskUptake[]) =>
	linkedErrors(
		uptakes.map(
			(u) =>
				[u.uptake.quantity.to("mg/g"), u.residue.quantity.to("mg/L")] as const,
		),
	),
);

/** @param at residue of the comparison, mg/L */
export function carriableOf(
	uptakes: readonly FlaskUptake[],
	at: number,
): Carriable {
	return {
		list: uptakes.map((flask) => ({
			flask,
			treatment: flask.flask.treatment,
			uptake: flask.uptake.quantity.in("mg/g"),
			residue: flask.residue.quantity.in("mg/L"),
			side: sideOf(flask, at),
			dose: flask.balance.added.in("mg") / flask.charMass.in("g"),
		})),
		errors: errorsOf(uptakes),
	};
}
