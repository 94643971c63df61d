import {
	exact,
	input,
	type Measured,
	named,
	plus,
	type Quantity,
	stated,
} from "../quantity";

/** One-sided 95 % of a normal error: an uptake below this many standard uncertainties cannot be told from none. */
const oneSided95 = 1.645;

export function toldFromNone(uptake: Quantity<"uptake">): boolean {
	return uptake.value >= oneSided95 * uptake.standardUncertainty;
}

/** Shifts a computed uptake by an exact amount; used to turn "not told from none" into its upper limit. */
function raisedBy(q: Quantity<"uptake">, shift: number): Quantity<"uptake"> {
	return plus(
		q,
		input("uptake", shift, "mg/g", exact, {
			symbol: "1.645 u(q)",
			meaning: "what measuring error could hide (one-sided 95 %)",
			source: stated("1.645 standard uncertainties of the uptake itself"),
			component: String(shift),
		}),
	);
}

/** An uptake that cannot be told from none, as the most that measuring error could hide. */
export function notToldFromNone(
	computed: Quantity<"uptake">,
	meaning: string,
): Measured<"uptake"> {
	const shift =
		oneSided95 * computed.standardUncertainty + Math.max(0, -computed.value);
	return {
		is: "at most",
		quantity: named(raisedBy(computed, shift), "q_{max}", meaning),
		because:
			"no uptake could be told from none with the measuring error of this flask",
	};
}
