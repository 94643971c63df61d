import type { Firing } from "../bench";
import {
	exact,
	input,
	type Kind,
	named,
	problem,
	type Quantity,
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

/**
 * What energy, agent and precursor of one firing cost, with the errors of their masses. Labour, water, gear, waste and agent that may be used again are not in it.
 * @throws ProblemError for a price that is negative or not a number
 */
export function firingCost(firing: Firing, prices: Prices): FiringCost {
	const leftOut: string[] = [];
	const nothing = (of: string): Quantity<"money"> =>
		input("money", 0, "money", exact, {
			symbol: "0",
			meaning: `${of}: not counted`,
			source: stated("not counted"),
		});
	const cost = (
		of: string,
		price: number | undefined,
		used: boolean,
		amount: () => Quantity<"money">,
	): Quantity<"money"> => {
		if (price !== undefined && used)
			return named(amount(), "C", `cost of ${of}, firing ${firing.name}`);
		leftOut.push(
			price === undefined
				? `${of} (no price given)`
				: `${of} (amount not recorded)`,
		);
		return nothing(of);
	};
	const agent = agentUsed(firing);
	const energy = cost(
		"energy",
		prices.perKilowattHour,
		firing.energyUsed.recorded,
		() =>
			times(
				priced(
					"energyPrice",
					prices.perKilowattHour ?? 0,
					"money/kWh",
					"energy",
				),
				(firing.energyUsed as { readonly value: Quantity<"energy"> }).value,
			),
	);
	const reagent =
		firing.agent === ""
			? nothing("agent")
			: cost("agent", prices.agentPerKilogram, agent.is !== "not known", () =>
					times(
						priced(
							"price",
							prices.agentPerKilogram ?? 0,
							"money/kg",
							firing.agent,
						),
						(agent as { readonly quantity: Quantity<"mass"> }).quantity,
					),
				);
	const precursor = cost("precursor", prices.precursorPerKilogram, true, () =>
		times(
			priced(
				"price",
				prices.precursorPerKilogram ?? 0,
				"money/kg",
				"precursor",
			),
			firing.precursorMass,
		),
	);
	return {
		currency: prices.currency,
		energy,
		reagent,
		precursor,
		total: named(
			total([energy, reagent, precursor]),
			"C",
			`cost of energy, agent and precursor, firing ${firing.name}`,
		),
		leftOut: [...leftOut, "labour, water, gear, waste"],
	};
}

/** Text of an amount of money (or of a price) with its currency. */
export function moneyText(quantity: Quantity<Kind>, currency: string): string {
	return String(quantity).replace("money", currency);
}
