import { firingCost, moneyText, type Prices } from "../../activation";
import {
	type Measured,
	measured,
	type NotKnown,
	named,
	notKnown,
	per,
	type Quantity,
	type Table,
	table,
	times,
} from "../../quantity";
import type { FiringUptake } from "./link";
import { balanceColumn, firingName, standardUncertainties } from "./tables";

/** What the taking up of a gram costs. */
export interface UptakeCost {
	readonly uptake: FiringUptake;
	readonly currency: string;
	/** money/g of iodine (or of what the flask took up). */
	readonly energy: Measured<"price"> | NotKnown;
	readonly reagent: Measured<"price"> | NotKnown;
	readonly total: Measured<"price"> | NotKnown;
	readonly sentence: string;
}

/** At least so much taken up makes it at most so dear. */
const opposite = {
	value: "value",
	"at least": "at most",
	"at most": "at least",
} as const;

/**
 * Cost of energy, agent and precursor of the last firing per gram taken up at the residue of the flask: C / (m_product q).
 * The cost of the firing that made a bought or earlier batch is not in it.
 * @throws ProblemError for a price that is negative or not a number
 */
export function uptakeCost(uptake: FiringUptake, prices: Prices): UptakeCost {
	const none = (because: string): UptakeCost => {
		const nothing = notKnown(because);
		return {
			uptake,
			currency: prices.currency,
			energy: nothing,
			reagent: nothing,
			total: nothing,
			sentence: `Flask ${uptake.flask.name}: no cost per gram taken up; ${because}.`,
		};
	};
	if (uptake.firing.is === "not known") return none(uptake.firing.because);
	const { yields } = uptake.firing;
	const product = yields.dryProduct;
	if (product.is === "not known") return none(product.because);
	const q = uptake.uptake;
	if (!(q.quantity.value > 0)) return none("nothing measurable was taken up");
	const cost = firingCost(yields.firing, prices);
	const takenUp = times(q.quantity, product.quantity);
	const perGram = (
		money: Quantity<"money">,
		what: string,
	): Measured<"price"> => {
		const quantity = named(
			per(money, takenUp).to("money/g"),
			"c",
			`${what} per gram taken up, flask ${uptake.flask.name}`,
		);
		const is = opposite[q.is];
		return is === "value"
			? measured(quantity)
			: { is, quantity, because: `the uptake is ${q.is} so much` };
	};
	const total = perGram(cost.total, "cost");
	return {
		uptake,
		currency: cost.currency,
		energy: perGram(cost.energy, "energy cost"),
		reagent: perGram(cost.reagent, "agent cost"),
		total,
		sentence: `Flask ${uptake.flask.name}: ${total.is === "value" ? "" : `${total.is} `}${moneyText(total.quantity, cost.currency)} of ${uptake.probe} taken up. Not counted: ${cost.leftOut.join("; ")}.`,
	};
}

/** What a gram taken up costs in each flask. */
export function uptakeCostTable(costs: readonly UptakeCost[]): Table {
	const text = (
		cost: Measured<"price"> | NotKnown,
		currency: string,
	): string =>
		cost.is === "not known"
			? ""
			: `${cost.is === "value" ? "" : `${cost.is} `}${moneyText(cost.quantity, currency)}`;
	const balance = balanceColumn(costs.map((c) => c.uptake));
	return table(
		"Cost per gram taken up, at each flask's residue",
		["flask", "firing", "energy", "agent", "in all", ...balance.heads],
		costs.map(({ uptake, currency, energy, reagent, total }) => [
			uptake.flask.name,
			firingName(uptake),
			text(energy, currency),
			text(reagent, currency),
			text(total, currency),
			...balance.cells(uptake),
		]),
		[
			"Energy and amounts of a firing on the bench: a larger kiln wastes less heat. What an earlier firing cost, that made the char, is not in it. Costs at unlike residues do not rank the chars.",
			standardUncertainties,
		],
	);
}
