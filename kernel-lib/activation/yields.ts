import type { ActivationRun } from "../bench";
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
import { molarMass } from "../solutions";
import { agentDrained, agentUsed, agentWashedOut } from "./agent-masses";
import { agentNamed } from "./agents";
import { dryPrecursor, dryProduct } from "./dry-masses";
import { type Finding, found, mapFinding, notKnown } from "./finding";

/** What the weighings of one run say. Each figure is a value with its working, a limit, or the reason why there is none. */
export interface ActivationFigures {
	readonly run: ActivationRun;
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
	run: ActivationRun,
	symbol: string,
	meaning: string,
): <K extends Kind>(q: Quantity<K>) => Quantity<K> {
	return (q) => named(q, symbol, `${meaning}, run ${run.name}`);
}

const inPercent = (ratio: Quantity<"ratio">): Quantity<"ratio"> =>
	ratio.to("%");

/** Mass of char that was activated: the mass after charring, or the precursor where that was a char already. */
function charBefore(run: ActivationRun): Finding<"mass"> {
	if (run.charredMass.recorded) return found(run.charredMass.value);
	return /\b(bio)?char(coal)?\b/i.test(run.precursor)
		? found(dryPrecursor(run))
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

function fixedCarbonOf(run: ActivationRun): Finding<"ratio"> {
	if (!run.productAsh.recorded || !run.productVolatileMatter.recorded)
		return notKnown("ash or volatile matter of the product is not recorded");
	const { productAsh, productVolatileMatter } = run;
	return found(
		nameOf(
			run,
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
	run: ActivationRun,
	charYield: Finding<"ratio">,
	fixedCarbon: Finding<"ratio">,
): Finding<"ratio"> {
	if (fixedCarbon.is === "not known") return fixedCarbon;
	if (!run.precursorAsh.recorded)
		return notKnown("the ash of the precursor is not recorded");
	const organic = minus(exactRatio(1), run.precursorAsh.value);
	return mapFinding(charYield, (y) =>
		nameOf(
			run,
			"y_{\\text{FC}}",
			"fixed-carbon yield",
		)(inPercent(per(times(y, fixedCarbon.quantity), organic))),
	);
}

function molesOf(
	run: ActivationRun,
	agent: Finding<"mass">,
): Finding<"amount"> {
	if (agent.is === "not known") return agent;
	const known = agentNamed(run.agent);
	return known.found
		? mapFinding(agent, (m) => per(m, molarMass(known.agent.formula)))
		: notKnown(
				`"${run.agent}" is no name or formula that a molar mass is known for`,
			);
}

function perCarbon(
	run: ActivationRun,
	moles: Finding<"amount">,
	dry: Quantity<"mass">,
): Finding<"ratio"> {
	if (moles.is === "not known") return moles;
	if (!run.precursorCarbon.recorded)
		return notKnown("the carbon in the precursor is not recorded");
	const carbon = per(times(dry, run.precursorCarbon.value), molarMass("C"));
	return mapFinding(moles, (n) =>
		nameOf(
			run,
			"R_{\\text{mol}}",
			"moles of agent per mole of carbon in the dry precursor",
		)(per(n, carbon)),
	);
}

/** Agent found again, in the liquor and in the rinses, as a part of what was measured out. */
function recoveredOf(
	run: ActivationRun,
	agent: Finding<"mass">,
): Finding<"ratio"> {
	if (agent.is === "not known") return agent;
	const washed = agentWashedOut(run);
	if (washed.is === "not known") return washed;
	const drained = agentDrained(run);
	if (run.liquorDrained.recorded && drained.is === "not known") return drained;
	return mapFinding(washed, (m) =>
		nameOf(
			run,
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
export function activationFigures(run: ActivationRun): ActivationFigures {
	const dry = dryPrecursor(run);
	const product = dryProduct(run);
	const before = charBefore(run);
	const agent = agentUsed(run);
	const drained = agentDrained(run);
	const charYield = quotient(
		product,
		found(dry),
		nameOf(run, "Y", "char yield"),
	);
	const activationYield = quotient(
		product,
		before,
		nameOf(run, "Y_{\\text{act}}", "activation yield"),
	);
	const fixedCarbon = fixedCarbonOf(run);
	const moles = molesOf(run, agent);
	return {
		run,
		dryPrecursor: dry,
		dryProduct: product,
		charYield,
		carbonisationYield: run.charredMass.recorded
			? quotient(
					found(run.charredMass.value),
					found(dry),
					nameOf(run, "Y_{\\text{carb}}", "carbonisation yield"),
				)
			: notKnown("the mass after charring is not recorded"),
		activationYield,
		burnOff: mapFinding(activationYield, (y) =>
			nameOf(run, "B", "burn-off")(inPercent(minus(exactRatio(1), y))),
		),
		fixedCarbon,
		fixedCarbonYield: fixedCarbonYieldOf(run, charYield, fixedCarbon),
		impregnationRatio: mapFinding(agent, (m) =>
			nameOf(run, "R", "impregnation ratio")(per(m, dry)),
		),
		impregnationRatioKept:
			drained.is === "not known"
				? drained
				: mapFinding(agent, (m) =>
						nameOf(
							run,
							"R_{\\text{kept}}",
							"impregnation ratio after the liquor was poured off",
						)(per(minus(m, drained.quantity), dry)),
					),
		agentPerPrecursor: mapFinding(moles, (n) =>
			nameOf(
				run,
				"n_{\\text{agent}}/m",
				"moles of agent per gram of dry precursor",
			)(per(n, dry)),
		),
		agentPerCarbon: perCarbon(run, moles, dry),
		agentRecovered: recoveredOf(run, agent),
	};
}
