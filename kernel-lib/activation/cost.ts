import type { Firing } from "../bench";
import {
	exact,
	input,
	type Kind,
	known,
	type MaybeKnown,
	named,
	notKnown,
	problem,
	type Quantity,
	quoted,
	stated,
	throwProblems,
	times,
	total,
	type UnitOf,
} from "../quantity";
import { agentUsed } from "./agent-masses";

/** Prices as the user types them, without uncertainty. What has no price is left out and named. */
export interface Prices {
	/** Label only, e.g. "EUR". */
	readonly currency: string;
	readonly perKilowattHour?: number;
	/** Of pure agent. */
	readonly agentPerKilogram?: number;
	/** Of the precursor as it was weighed, moist. */
	readonly precursorPerKilogram?: number;
}

export interface FiringCost {
	readonly currency: string;
	readonly energy: Quantity<"money">;
	readonly reagent: Quantity<"money">;
	readonly precursor: Quantity<"money">;
	readonly total: Quantity<"money">;
	/** What is not in it, in words. */
	readonly leftOut: readonly string[];
}

function priced<K extends "price" | "energyPrice">(
	kind: K,
	value: number,
	unit: UnitOf<K>,
	of: string,
): Quantity<K> {
	if (!(value >= 0) || !Number.isFinite(value))
		throwProblems([
			problem(
				"price-out-of-range",
				{},
				`a price of ${value} for ${of}`,
				"a number of 0 or more",
				"Set it to 0 where it costs you nothing, and leave it out where it is not known.",
			),
		]);
	return input(kind, value, unit, exact, {
		symbol: "p",
		meaning: `price of ${of}`,
		source: stated("price typed in"),
	});
}

/** A part of the cost that is known, or why it is not counted. */
type CostPart = MaybeKnown<Quantity<"money">>;

function partOf(
	of: string,
	firing: Firing,
	price: number | undefined,
	amount: MaybeKnown<(price: number) => Quantity<"money">>,
): CostPart {
	if (price === undefined) return notKnown(`${of} (no price given)`);
	return amount.is === "not known"
		? notKnown(`${of} (amount not recorded)`)
		: known(
				named(
					amount.value(price),
					"C",
					`cost of ${of}, firing ${quoted(firing.name)}`,
				),
			);
}

function energyCost(firing: Firing, price: number | undefined): CostPart {
	const { energyUsed } = firing;
	return partOf(
		"energy",
		firing,
		price,
		energyUsed.recorded
			? known((p) =>
					times(
						priced("energyPrice", p, "money/kWh", "energy"),
						energyUsed.value,
					),
				)
			: notKnown("the energy is not recorded"),
	);
}

function agentCost(firing: Firing, price: number | undefined): CostPart {
	if (firing.agent === "") return known(uncounted("agent"));
	const agent = agentUsed(firing);
	return partOf(
		"agent",
		firing,
		price,
		agent.is === "not known"
			? agent
			: known((p) =>
					times(priced("price", p, "money/kg", firing.agent), agent.quantity),
				),
	);
}

function precursorCost(firing: Firing, price: number | undefined): CostPart {
	return partOf(
		"precursor",
		firing,
		price,
		known((p) =>
			times(priced("price", p, "money/kg", "precursor"), firing.precursorMass),
		),
	);
}

/** Stands in the sum for what is not counted. */
function uncounted(of: string): Quantity<"money"> {
	return input("money", 0, "money", exact, {
		symbol: "0",
		meaning: `${of}: not counted`,
		source: stated("not counted"),
	});
}

/**
 * What energy, agent and precursor of one firing cost, with the errors of their masses. Labour, water, gear, waste and agent that may be used again are not in it.
 * @throws ProblemError for a price that is negative or not a number
 */
export function firingCost(firing: Firing, prices: Prices): FiringCost {
	const parts = {
		energy: energyCost(firing, prices.perKilowattHour),
		agent: agentCost(firing, prices.agentPerKilogram),
		precursor: precursorCost(firing, prices.precursorPerKilogram),
	};
	const costOf = (of: keyof typeof parts): Quantity<"money"> => {
		const part = parts[of];
		return part.is === "value" ? part.value : uncounted(of);
	};
	const [energy, reagent, precursor] = [
		costOf("energy"),
		costOf("agent"),
		costOf("precursor"),
	];
	return {
		currency: prices.currency,
		energy,
		reagent,
		precursor,
		total: named(
			total([energy, reagent, precursor]),
			"C",
			`cost of energy, agent and precursor, firing ${quoted(firing.name)}`,
		),
		leftOut: [
			...Object.values(parts).flatMap((part) =>
				part.is === "not known" ? [part.because] : [],
			),
			"labour, water, gear, waste",
		],
	};
}

/** Text of an amount of money (or of a price) with its currency. */
export function moneyText(quantity: Quantity<Kind>, currency: string): string {
	return String(quantity).replaceAll("money", currency);
}
