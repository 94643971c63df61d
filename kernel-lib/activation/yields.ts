import type { Firing } from "../bench";
import {
	exactRatio,
	type Kind,
	minus,
	named,
	per,
	plus,
	type Quantity,
	times,
} from "../quantity";
import { molarMass } from "../substances";
import { agentDrained, agentUsed, agentWashedOut } from "./agent-masses";
import { agentNamed } from "./agents";
import { dryPrecursor, dryProduct } from "./dry-masses";
import { type Finding, found, mapFinding, notKnown } from "./finding";

/** What the weighings of one run say. Each figure is a value with its working, a limit, or the reason why there is none. */
export interface FiringYields {
	readonly firing: Firing;
	readonly dryPrecursor: Quantity<"mass">;
	readonly dryProduct: Finding<"mass">;
	readonly charYield: Finding<"ratio">;
	readonly carbonisationYield: Finding<"ratio">;
	readonly activationYield: Finding<"ratio">;
	readonly burnOff: Finding<"ratio">;
	readonly fixedCarbon: Finding<"ratio">;
	readonly fixedCarbonYield: Finding<"ratio">;
	readonly impregnationRatio: Finding<"ratio">;
	readonly impregnationRatioKept: Finding<"ratio">;
	readonly agentPerPrecursor: Finding<"amountPerMass">;
	readonly agentPerCarbon: Finding<"ratio">;
	readonly agentRecovered: Finding<"ratio">;
}

function nameOf(
	firing: Firing,
	symbol: string,
	meaning: string,
): <K extends Kind>(q: Quantity<K>) => Quantity<K> {
	return (q) => named(q, symbol, `${meaning}, run ${firing.name}`);
}

const inPercent = (ratio: Quantity<"ratio">): Quantity<"ratio"> =>
	ratio.to("%");

/** Mass of char that was activated: the mass after charring, or the precursor where that was a char already. */
function charBefore(firing: Firing): Finding<"mass"> {
	if (firing.charredMass.recorded) return found(firing.charredMass.value);
	return /\b(bio)?char(coal)?\b/i.test(firing.precursor)
		? found(dryPrecursor(firing))
		: notKnown(
				"the mass after charring is not recorded, and the precursor is not named as a char",
			);
}

function quotient(
	a: Finding<"mass">,
	b: Finding<"mass">,
	name: (q: Quantity<"ratio">) => Quantity<"ratio">,
): Finding<"ratio"> {
	return b.is === "not known"
		? b
		: mapFinding(a, (x) => name(inPercent(per(x, b.quantity))));
}

function fixedCarbonOf(firing: Firing): Finding<"ratio"> {
	if (!firing.productAsh.recorded || !firing.productVolatileMatter.recorded)
		return notKnown("ash or volatile matter of the product is not recorded");
	const { productAsh, productVolatileMatter } = firing;
	return found(
		nameOf(
			firing,
			"\\text{FC}",
			"fixed carbon of the dry product",
		)(
			inPercent(
				minus(
					minus(exactRatio(1), productAsh.value),
					productVolatileMatter.value,
				),
			),
		),
	);
}

function fixedCarbonYieldOf(
	firing: Firing,
	charYield: Finding<"ratio">,
	fixedCarbon: Finding<"ratio">,
): Finding<"ratio"> {
	if (fixedCarbon.is === "not known") return fixedCarbon;
	if (!firing.precursorAsh.recorded)
		return notKnown("the ash of the precursor is not recorded");
	const organic = minus(exactRatio(1), firing.precursorAsh.value);
	return mapFinding(charYield, (y) =>
		nameOf(
			firing,
			"y_{\\text{FC}}",
			"fixed-carbon yield",
		)(inPercent(per(times(y, fixedCarbon.quantity), organic))),
	);
}

function molesOf(firing: Firing, agent: Finding<"mass">): Finding<"amount"> {
	if (agent.is === "not known") return agent;
	const known = agentNamed(firing.agent);
	return known.is === "known"
		? mapFinding(agent, (m) => per(m, molarMass(known.agent.formula)))
		: known;
}

function perCarbon(
	firing: Firing,
	moles: Finding<"amount">,
	dry: Quantity<"mass">,
): Finding<"ratio"> {
	if (moles.is === "not known") return moles;
	if (!firing.precursorCarbon.recorded)
		return notKnown("the carbon in the precursor is not recorded");
	const carbon = per(times(dry, firing.precursorCarbon.value), molarMass("C"));
	return mapFinding(moles, (n) =>
		nameOf(
			firing,
			"R_{\\text{mol}}",
			"moles of agent per mole of carbon in the dry precursor",
		)(per(n, carbon)),
	);
}

/** Agent found again, in the liquor and in the rinses, as a part of what was measured out. */
function recoveredOf(firing: Firing, agent: Finding<"mass">): Finding<"ratio"> {
	if (agent.is === "not known") return agent;
	const washed = agentWashedOut(firing);
	if (washed.is === "not known") return washed;
	const drained = agentDrained(firing);
	if (firing.liquorDrained.recorded && drained.is === "not known")
		return drained;
	return mapFinding(washed, (m) =>
		nameOf(
			firing,
			"R_{\\text{agent}}",
			"agent found again in liquor and rinses",
		)(
			inPercent(
				per(
					drained.is === "not known" ? m : plus(m, drained.quantity),
					agent.quantity,
				),
			),
		),
	);
}

/**
 * Yields, burn-off, impregnation ratios and the agent found again, each on the dry basis of `definitions`, with uncertainty and working.
 * Where the sheet gives no moisture, the mass as weighed stands for the dry one (the table says so).
 */
export function firingYields(firing: Firing): FiringYields {
	const dry = dryPrecursor(firing);
	const product = dryProduct(firing);
	const before = charBefore(firing);
	const agent = agentUsed(firing);
	const drained = agentDrained(firing);
	const charYield = quotient(
		product,
		found(dry),
		nameOf(firing, "Y", "char yield"),
	);
	const activationYield = quotient(
		product,
		before,
		nameOf(firing, "Y_{\\text{act}}", "activation yield"),
	);
	const fixedCarbon = fixedCarbonOf(firing);
	const moles = molesOf(firing, agent);
	return {
		firing,
		dryPrecursor: dry,
		dryProduct: product,
		charYield,
		carbonisationYield: firing.charredMass.recorded
			? quotient(
					found(firing.charredMass.value),
					found(dry),
					nameOf(firing, "Y_{\\text{carb}}", "carbonisation yield"),
				)
			: notKnown("the mass after charring is not recorded"),
		activationYield,
		burnOff: mapFinding(activationYield, (y) =>
			nameOf(firing, "B", "burn-off")(inPercent(minus(exactRatio(1), y))),
		),
		fixedCarbon,
		fixedCarbonYield: fixedCarbonYieldOf(firing, charYield, fixedCarbon),
		impregnationRatio: mapFinding(agent, (m) =>
			nameOf(firing, "R", "impregnation ratio")(per(m, dry)),
		),
		impregnationRatioKept:
			drained.is === "not known"
				? drained
				: mapFinding(agent, (m) =>
						nameOf(
							firing,
							"R_{\\text{kept}}",
							"impregnation ratio after the liquor was poured off",
						)(per(minus(m, drained.quantity), dry)),
					),
		agentPerPrecursor: mapFinding(moles, (n) =>
			nameOf(
				firing,
				"n_{\\text{agent}}/m",
				"moles of agent per gram of dry precursor",
			)(per(n, dry)),
		),
		agentPerCarbon: perCarbon(firing, moles, dry),
		agentRecovered: recoveredOf(firing, agent),
	};
}
