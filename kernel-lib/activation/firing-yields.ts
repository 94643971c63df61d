import type { Firing } from "../bench";
import {
	exactRatio,
	type Kind,
	kept,
	type Measured,
	mapMeasured,
	measured,
	minus,
	type NotKnown,
	named,
	notKnown,
	per,
	plus,
	type Quantity,
	quoted,
	times,
} from "../quantity";
import { molarMass } from "../substances";
import { agentDrained, agentUsed, agentWashedOut } from "./agent-masses";
import { agentNamed } from "./agents";
import { dryPrecursor, dryProduct } from "./dry-masses";

/** What the weighings of one firing give. Each figure is a value with its working, a limit, or the reason why there is none. */
export interface FiringYields {
	readonly firing: Firing;
	readonly dryPrecursor: Quantity<"mass">;
	readonly dryProduct: Measured<"mass"> | NotKnown;
	readonly charYield: Measured<"ratio"> | NotKnown;
	readonly carbonisationYield: Measured<"ratio"> | NotKnown;
	readonly activationYield: Measured<"ratio"> | NotKnown;
	readonly burnOff: Measured<"ratio"> | NotKnown;
	readonly fixedCarbon: Measured<"ratio"> | NotKnown;
	readonly fixedCarbonYield: Measured<"ratio"> | NotKnown;
	readonly impregnationRatio: Measured<"ratio"> | NotKnown;
	readonly impregnationRatioKept: Measured<"ratio"> | NotKnown;
	readonly agentPerPrecursor: Measured<"amountPerMass"> | NotKnown;
	readonly agentPerCarbon: Measured<"ratio"> | NotKnown;
	readonly agentRecovered: Measured<"ratio"> | NotKnown;
}

function nameOf(
	firing: Firing,
	symbol: string,
	meaning: string,
): <K extends Kind>(q: Quantity<K>) => Quantity<K> {
	return (q) => named(q, symbol, `${meaning}, firing ${quoted(firing.name)}`);
}

const inPercent = (ratio: Quantity<"ratio">): Quantity<"ratio"> =>
	ratio.to("%");

/** Mass of char that was activated: the mass after charring, or the precursor where that was a char already. */
function charBefore(firing: Firing): Measured<"mass"> | NotKnown {
	if (firing.charredMass.recorded) return measured(firing.charredMass.value);
	return /\b(bio)?char(coal)?\b/i.test(firing.precursor)
		? measured(dryPrecursor(firing))
		: notKnown(
				"the mass after charring is not recorded, and the precursor is not named as a char",
			);
}

function quotient(
	a: Measured<"mass"> | NotKnown,
	b: Measured<"mass"> | NotKnown,
	name: (q: Quantity<"ratio">) => Quantity<"ratio">,
): Measured<"ratio"> | NotKnown {
	return b.is === "not known"
		? b
		: mapMeasured(a, (x) => name(inPercent(per(x, b.quantity))));
}

function fixedCarbonOf(firing: Firing): Measured<"ratio"> | NotKnown {
	if (!firing.productAsh.recorded || !firing.productVolatileMatter.recorded)
		return notKnown("ash or volatile matter of the product is not recorded");
	const { productAsh, productVolatileMatter } = firing;
	return measured(
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
	charYield: Measured<"ratio"> | NotKnown,
	fixedCarbon: Measured<"ratio"> | NotKnown,
): Measured<"ratio"> | NotKnown {
	if (fixedCarbon.is === "not known") return fixedCarbon;
	if (!firing.precursorAsh.recorded)
		return notKnown("the ash of the precursor is not recorded");
	const organic = minus(exactRatio(1), firing.precursorAsh.value);
	return mapMeasured(charYield, (y) =>
		nameOf(
			firing,
			"y_{\\text{FC}}",
			"fixed-carbon yield",
		)(inPercent(per(times(y, fixedCarbon.quantity), organic))),
	);
}

function molesOf(
	firing: Firing,
	agent: Measured<"mass"> | NotKnown,
): Measured<"amount"> | NotKnown {
	if (agent.is === "not known") return agent;
	const known = agentNamed(firing.agent);
	return known.is === "known"
		? mapMeasured(agent, (m) => per(m, molarMass(known.agent.formula)))
		: known;
}

function perCarbon(
	firing: Firing,
	moles: Measured<"amount"> | NotKnown,
	dry: Quantity<"mass">,
): Measured<"ratio"> | NotKnown {
	if (moles.is === "not known") return moles;
	if (!firing.precursorCarbon.recorded)
		return notKnown("the carbon in the precursor is not recorded");
	const carbon = per(times(dry, firing.precursorCarbon.value), molarMass("C"));
	return mapMeasured(moles, (n) =>
		nameOf(
			firing,
			"R_{\\text{mol}}",
			"moles of agent per mole of carbon in the dry precursor",
		)(per(n, carbon)),
	);
}

/** Agent found again, in the liquor and in the rinses, as a part of what was measured out. */
function recoveredOf(
	firing: Firing,
	agent: Measured<"mass"> | NotKnown,
): Measured<"ratio"> | NotKnown {
	if (agent.is === "not known") return agent;
	const washed = agentWashedOut(firing);
	if (washed.is === "not known") return washed;
	const drained = agentDrained(firing);
	if (firing.liquorDrained.recorded && drained.is === "not known")
		return drained;
	return mapMeasured(washed, (m) =>
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
 * Yields, burn-off, impregnation ratios and the agent found again, each on the dry basis of `definitionTable`, with uncertainty and working.
 * Where the sheet gives no moisture, the mass as weighed stands for the dry one (the table says so).
 */
export const firingYields = kept((firing: Firing): FiringYields => {
	const dry = dryPrecursor(firing);
	const product = dryProduct(firing);
	const before = charBefore(firing);
	const agent = agentUsed(firing);
	const drained = agentDrained(firing);
	const charYield = quotient(
		product,
		measured(dry),
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
					measured(firing.charredMass.value),
					measured(dry),
					nameOf(firing, "Y_{\\text{carb}}", "carbonisation yield"),
				)
			: notKnown("the mass after charring is not recorded"),
		activationYield,
		burnOff: mapMeasured(activationYield, (y) =>
			nameOf(firing, "B", "burn-off")(inPercent(minus(exactRatio(1), y))),
		),
		fixedCarbon,
		fixedCarbonYield: fixedCarbonYieldOf(firing, charYield, fixedCarbon),
		impregnationRatio: mapMeasured(agent, (m) =>
			nameOf(firing, "R", "impregnation ratio")(per(m, dry)),
		),
		impregnationRatioKept:
			drained.is === "not known"
				? drained
				: mapMeasured(agent, (m) =>
						nameOf(
							firing,
							"R_{\\text{kept}}",
							"impregnation ratio after the liquor was poured off",
						)(per(minus(m, drained.quantity), dry)),
					),
		agentPerPrecursor: mapMeasured(moles, (n) =>
			nameOf(
				firing,
				"n_{\\text{agent}}/m",
				"moles of agent per gram of dry precursor",
			)(per(n, dry)),
		),
		agentPerCarbon: perCarbon(firing, moles, dry),
		agentRecovered: recoveredOf(firing, agent),
	};
});
