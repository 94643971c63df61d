import {
	type Finding,
	firingCost,
	moneyText,
	type Prices,
} from "../../activation";
import {
	named,
	per,
	type Quantity,
	type Table,
	table,
	times,
} from "../../quantity";
import type { ActivatedUptake } from "./link";
import { balanceColumn, standardUncertainties } from "./tables";

/** What the taking up of a gram costs. */
export interface UptakeCost {
	readonly uptake: ActivatedUptake;
	readonly currency: string;
	/** money/g of iodine (or of what the flask took up). */
	readonly energy: Finding<"price">;
	readonly reagent: Finding<"price">;
	readonly total: Finding<"price">;
	readonly sentence: string;
}

/** At least so much taken up makes it at most so dear. */
const opposite = {
	value: "value",
	"at least": "at most",
	"at most": "at least",
} as const;

/**
 * Cost of energy, agent and precursor of the last run per gram taken up at the residue of the flask: C / (m_product q).
 * The cost of the run that made a bought or earlier batch is not in it.
 * @throws RangeError for a price that is negative or not a number
 */
export function uptakeCost(
	uptake: ActivatedUptake,
	prices: Prices,
): UptakeCost {
	const none = (because: string): UptakeCost => {
		const nothing = { is: "not known", because } as const;
		return {
			uptake,
			currency: prices.currency,
			energy: nothing,
			reagent: nothing,
			total: nothing,
			sentence: `Flask ${uptake.flask.name}: no cost per gram taken up; ${because}.`,
		};
	};
	if (!uptake.activation.recorded) return none(uptake.activation.because);
	const { figures } = uptake.activation;
	const product = figures.dryProduct;
	if (product.is === "not known") return none(product.because);
	const q = uptake.uptake;
	if (!(q.quantity.value > 0)) return none("nothing measurable was taken up");
	const cost = firingCost(figures.firing, prices);
	const takenUp = times(q.quantity, product.quantity);
	const perGram = (
		money: Quantity<"money">,
		what: string,
	): Finding<"price"> => {
		const quantity = named(
			per(money, takenUp).to("money/g"),
			"c",
			`${what} per gram taken up, flask ${uptake.flask.name}`,
		);
		const is = opposite[q.is];
		return is === "value"
			? { is, quantity }
			: { is, quantity, because: `the uptake is ${q.is} so much` };
	};
	const total = perGram(cost.total, "cost");
	return {
		uptake,
		currency: cost.currency,
		energy: perGram(cost.energy, "energy cost"),
		reagent: perGram(cost.reagent, "agent cost"),
		total,
		sentence: `Flask ${uptake.flask.name}: ${total.is === "not known" ? total.because : `${total.is === "value" ? "" : `${total.is} `}${moneyText(total.quantity, cost.currency)} of ${uptake.probe} taken up`}. Not counted: ${cost.leftOut.join("; ")}.`,
	};
}

/** What a gram taken up costs in each flask. */
export function uptakeCostTable(costs: readonly UptakeCost[]): Table {
	const text = (finding: Finding<"price">, currency: string): string =>
		finding.is === "not known"
			? ""
			: `${finding.is === "value" ? "" : `${finding.is} `}${moneyText(finding.quantity, currency)}`;
	const balance = balanceColumn(costs.map((c) => c.uptake));
	return table(
		"Cost per gram taken up, at each flask's residue",
		["flask", "activation run", "energy", "agent", "in all", ...balance.heads],
		costs.map(({ uptake, currency, energy, reagent, total }) => [
			uptake.flask.name,
			uptake.activation.recorded ? uptake.activation.figures.firing.name : "",
			text(energy, currency),
			text(reagent, currency),
			text(total, currency),
			...balance.cells(uptake),
		]),
		[
			"Energy and amounts of a bench run: a larger kiln wastes less heat. What an earlier run cost, that made the char, is not in it. Costs at unlike residues do not rank the chars.",
			standardUncertainties,
		],
	);
}
