import {
	exact,
	idsOf,
	input,
	type Measured,
	named,
	plus,
	type Quantity,
	stated,
} from "../quantity";

/** One-sided 95 % of a normal error: an uptake below this many standard uncertainties cannot be distinguished from zero. */
const oneSided95 = 1.645;

/** Whether what was taken up, in milligrams, can be distinguished from zero. How well the char was weighed plays no part in that. */
export function isAboveZero(takenUp: Quantity<"mass">): boolean {
	return takenUp.value >= oneSided95 * takenUp.standardUncertainty;
}

/** Standard uncertainties below zero from which on error no longer explains it. A decision of ours: about one flask in 700 without uptake reaches so far by chance. */
const clearly = 3;

/** Whether less than nothing was taken up, by more than the error of the balance. */
export function isBelowZero(
	takenUp: Quantity<"mass">,
	added: Quantity<"mass">,
): boolean {
	// What rounding leaves of a difference of equals is no finding.
	const rounding = 1e-9 * added.in("mg");
	const milligrams = takenUp.to("mg");
	// Hardly a flask comes so far that its error has to be known.
	return (
		milligrams.value < -rounding &&
		milligrams.value < -clearly * milligrams.standardUncertainty
	);
}

/** Shifts a computed uptake by an exact amount; used to turn an uptake near zero into its upper limit. */
function raisedBy(q: Quantity<"uptake">, shift: number): Quantity<"uptake"> {
	return plus(
		q,
		input("uptake", shift, "mg/g", exact, {
			symbol: "1.645 u(q)",
			meaning: "what measuring error could hide (one-sided 95 %)",
			source: stated("1.645 standard uncertainties of the uptake itself"),
			computedFrom: idsOf([q])[0],
		}),
	);
}

/** An uptake that cannot be distinguished from zero, as the most that measuring error could hide. */
export function boundNearZero(
	computed: Quantity<"uptake">,
	meaning: string,
): Measured<"uptake"> {
	const shift =
		oneSided95 * computed.standardUncertainty + Math.max(0, -computed.value);
	return {
		is: "at most",
		quantity: named(raisedBy(computed, shift), "q_{max}", meaning),
		because:
			"no uptake could be distinguished from zero with the measuring error of this flask",
	};
}
