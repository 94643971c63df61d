import { type Firing, isLeftOut, type Rinse } from "../bench";
import {
	exact,
	input,
	type Measured,
	measured,
	minus,
	type NotKnown,
	named,
	notKnown,
	per,
	type Quantity,
	quoted,
	scaled,
	stated,
	times,
	total,
} from "../quantity";
import { molarMass } from "../substances";
import { agentNamed } from "./agents";

/** Mass of pure agent measured out: solid times purity, mass of solution times mass fraction, volume times strength (with the molar mass where the strength is in mol/L). */
export function agentUsed(firing: Firing): Measured<"mass"> | NotKnown {
	if (firing.agent === "") return notKnown("no agent was used");
	if (!firing.agentAmount.recorded)
		return notKnown("how much agent was used is not recorded");
	const amount = firing.agentAmount.value;
	const name = (m: Quantity<"mass">): Measured<"mass"> | NotKnown =>
		measured(
			named(
				m,
				"m_{\\text{agent}}",
				`mass of ${firing.agent} measured out, firing ${quoted(firing.name)}`,
			),
		);
	switch (amount.as) {
		case "solid":
			return name(times(amount.mass, amount.purity));
		case "solution by mass":
			return name(times(amount.mass, amount.massFraction));
		case "solution by volume": {
			if (amount.strength.kind === "massConcentration")
				return name(times(amount.strength, amount.volume));
			const named = agentNamed(firing.agent);
			return named.is === "known"
				? name(
						times(
							times(amount.strength, molarMass(named.agent.formula)),
							amount.volume,
						),
					)
				: notKnown(
						`the strength is in mol/L and "${firing.agent}" is no name or formula that a molar mass is known for`,
					);
		}
	}
}

/** Mass of what was poured or weighed in with the agent, its water included. */
export function agentAddition(firing: Firing): Measured<"mass"> | NotKnown {
	if (!firing.agentAmount.recorded)
		return notKnown("how much agent was used is not recorded");
	const amount = firing.agentAmount.value;
	return amount.as === "solution by volume"
		? notKnown(
				"the agent's solution was measured by volume and its density is not recorded",
			)
		: measured(amount.mass);
}

/** Agent that left with the liquor poured off after the soak; the liquor is taken as strong as the soak's solution where its own strength is not recorded. */
export function agentDrained(firing: Firing): Measured<"mass"> | NotKnown {
	if (!firing.liquorDrained.recorded)
		return notKnown("no liquor poured off is recorded");
	const liquor = firing.liquorDrained.value;
	const amount = firing.agentAmount;
	const strength = firing.liquorStrength.recorded
		? firing.liquorStrength.value
		: amount.recorded && amount.value.as === "solution by mass"
			? amount.value.massFraction
			: null;
	return strength === null
		? notKnown("the strength of the liquor poured off is not recorded")
		: measured(
				named(
					times(liquor, strength),
					"m_{\\text{agent, drained}}",
					`agent in the liquor poured off, firing ${quoted(firing.name)}`,
				),
			);
}

/** The conductivity that the rinse water has by itself; 0 where it is not recorded. */
export function waterConductivity(firing: Firing): Quantity<"conductivity"> {
	return firing.rinseWater.conductivity.recorded
		? firing.rinseWater.conductivity.value
		: input("conductivity", 0, "µS/cm", exact, {
				symbol: "\\kappa_{\\text{water}}",
				meaning: "conductivity of the rinse water, not recorded: taken as none",
				source: stated("assumed"),
			});
}

/** What a rinse conducts beyond its water, as it ran off: (as read - water) times the dilution. */
export function excessConductivity(
	firing: Firing,
	read: Quantity<"conductivity">,
	diluted: number,
): Quantity<"conductivity"> {
	return scaled(minus(read, waterConductivity(firing)), diluted);
}

/** Strength of a liquid by its conductivity beyond the water's, in proportion to the reference solution: c = c_ref (κ - κ_water) / (κ_ref - κ_water). */
export function strengthByConductivity(
	firing: Firing,
	excess: Quantity<"conductivity">,
): Measured<"massConcentration"> | NotKnown {
	if (!firing.reference.recorded)
		return notKnown(
			"no reference solution of the agent was read, so conductivity cannot be turned into grams",
		);
	const { strength, conductivity } = firing.reference.value;
	return measured(
		times(
			strength,
			per(excess, minus(conductivity, waterConductivity(firing))),
		),
	);
}

/** Agent in one rinse: its strength by conductivity times its volume. */
export function agentInRinse(
	firing: Firing,
	rinse: Rinse,
): Measured<"mass"> | NotKnown {
	if (isLeftOut(rinse)) return notKnown(`rinse ${rinse.number} is left out`);
	if (!rinse.conductivity.recorded)
		return notKnown(
			`the conductivity of rinse ${rinse.number} is not recorded`,
		);
	const strength = strengthByConductivity(
		firing,
		excessConductivity(firing, rinse.conductivity.value, rinse.diluted),
	);
	return strength.is === "not known"
		? strength
		: measured(
				named(
					times(strength.quantity, rinse.volume),
					`m_{\\text{agent}, ${rinse.number}}`,
					`agent in rinse ${rinse.number}, firing ${quoted(firing.name)}`,
				),
			);
}

/** Agent in all rinses; "at least" where some of them were not read. */
export function agentWashedOut(firing: Firing): Measured<"mass"> | NotKnown {
	if (firing.rinses.length === 0) return notKnown("no rinse is recorded");
	if (firing.agent === "") return notKnown("no agent was used");
	const parts = firing.rinses.map((rinse) => agentInRinse(firing, rinse));
	const read = parts.flatMap((p) => (p.is === "not known" ? [] : [p.quantity]));
	const missing = parts.flatMap((p) =>
		p.is === "not known" ? [p.because] : [],
	);
	if (read.length === 0) return notKnown(missing[0]);
	const sum = named(
		total(read),
		"m_{\\text{agent, washed out}}",
		`agent in the rinses, firing ${quoted(firing.name)}`,
	);
	return missing.length === 0
		? measured(sum)
		: { is: "at least", quantity: sum, because: missing.join("; ") };
}
