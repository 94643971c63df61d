import {
	type ActivationCondition,
	type ActivationFigures,
	activationFigures,
	conditionOf,
	type Finding,
	moneyText,
	type Prices,
	runCost,
} from "../activation";
import { type ActivationSheet, activationRunsOf, type Run } from "../bench";
import {
	type Kind,
	type Measured,
	named,
	per,
	type Quantity,
	type Table,
	type TableCell,
	table,
	times,
} from "../quantity";
import type { FlaskUptake } from "./flask-uptake";

/** The activation run that a flask's char came from; `linkedBy` says which cell named it. */
export type ActivationLink =
	| {
			readonly recorded: true;
			readonly figures: ActivationFigures;
			readonly linkedBy: "soak" | "char batch";
			/** Dry char per dry feedstock, over the runs that this one's precursor came from (`precursor batch` names a run). */
			readonly yieldFromFeedstock: Finding<"ratio">;
			/** Names of the runs from feedstock to product. */
			readonly chain: readonly string[];
	  }
	| { readonly recorded: false; readonly because: string };

/** An uptake that carries its activation run; it goes wherever an uptake goes. */
export interface ActivatedUptake extends FlaskUptake {
	readonly activation: ActivationLink;
}

function chainOf(
	name: string,
	runs: ReadonlyMap<string, ActivationFigures>,
): ActivationFigures[] {
	const chain: ActivationFigures[] = [];
	const seen = new Set<string>();
	for (
		let figures = runs.get(name);
		figures !== undefined && !seen.has(figures.run.name);
		figures = runs.get(figures.run.precursorBatch)
	) {
		seen.add(figures.run.name);
		chain.unshift(figures);
	}
	return chain;
}

function yieldOf(chain: readonly ActivationFigures[]): Finding<"ratio"> {
	let product: Quantity<"ratio"> | null = null;
	for (const { charYield } of chain) {
		if (charYield.is !== "value") return charYield;
		product =
			product === null
				? charYield.quantity
				: times(product, charYield.quantity).to("%");
	}
	return product === null
		? { is: "not known", because: "no activation run" }
		: { is: "value", quantity: product };
}

/**
 * Gives every uptake its activation run: the run that the flask's `soak` names, else the one that its `char batch` names.
 *
 * @param from the bench sheet that the uptakes came from, or a sheet of activation runs of its own
 */
export function withActivation(
	uptakes: readonly FlaskUptake[],
	from: Run | ActivationSheet,
): ActivatedUptake[] {
	const figures = new Map(
		activationRunsOf(from).map((run) => [run.name, activationFigures(run)]),
	);
	return uptakes.map((u): ActivatedUptake => {
		const { soak, charBatch, name } = u.flask;
		const linkedBy = figures.has(soak) ? "soak" : "char batch";
		const found = figures.get(linkedBy === "soak" ? soak : charBatch);
		if (found === undefined)
			return {
				...u,
				activation: {
					recorded: false,
					because: `neither the soak "${soak}" nor the char batch "${charBatch}" of flask ${name} is the name of an activation run`,
				},
			};
		const chain = chainOf(found.run.name, figures);
		return {
			...u,
			activation: {
				recorded: true,
				figures: found,
				linkedBy,
				yieldFromFeedstock: yieldOf(chain),
				chain: chain.map((f) => f.run.name),
			},
		};
	});
}

/** A condition's value where the flask's run is known. */
export function conditionOfUptake(
	uptake: ActivatedUptake,
	condition: ActivationCondition,
): Finding<Kind> {
	return uptake.activation.recorded
		? conditionOf(uptake.activation.figures, condition)
		: { is: "not known", because: uptake.activation.because };
}

function changed<A extends Kind, B extends Kind>(
	measured: Measured<A>,
	change: (q: Quantity<A>) => Quantity<B>,
): Measured<B> {
	return measured.is === "value"
		? { is: "value", quantity: change(measured.quantity) }
		: { ...measured, quantity: change(measured.quantity) };
}

/**
 * Uptake per mass of dry feedstock: uptake times the yield of char from it, q Y; mg/g is g/kg. Errors that the two share (the balance, the moisture) count once. A bound stays a bound.
 */
export function feedstockCapacity(uptake: ActivatedUptake): Finding<"uptake"> {
	if (!uptake.activation.recorded)
		return { is: "not known", because: uptake.activation.because };
	const { yieldFromFeedstock, chain } = uptake.activation;
	if (yieldFromFeedstock.is === "not known") return yieldFromFeedstock;
	return changed(uptake.uptake, (q) =>
		named(
			times(q, yieldFromFeedstock.quantity).to("mg/g"),
			"q_{\\text{feedstock}}",
			`uptake per gram of dry feedstock, flask ${uptake.flask.name}, by way of ${chain.join(", ")}`,
		),
	);
}

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
	const cost = runCost(figures.run, prices);
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

const cell = (finding: Finding<Kind>): TableCell =>
	finding.is === "not known" ? "" : finding;

/** Every uptake beside its activation run: what was done, burn-off, yield. */
export function activatedUptakeTable(
	uptakes: readonly ActivatedUptake[],
	conditions: readonly ActivationCondition[] = [
		"impregnation ratio",
		"highest temperature",
		"burn-off",
		"char yield",
	],
): Table {
	const used = conditions.filter((c) =>
		uptakes.some((u) => conditionOfUptake(u, c).is !== "not known"),
	);
	const unlinked = uptakes.filter((u) => !u.activation.recorded);
	return table(
		"Uptake of each flask and the run that its char came from",
		[
			"flask",
			"treatment",
			"activation run",
			...used,
			"uptake (mg/g)",
			"at residual concentration (mg/L)",
		],
		uptakes.map((u) => [
			u.flask.name,
			u.flask.treatment,
			u.activation.recorded ? u.activation.figures.run.name : "",
			...used.map((c) => cell(conditionOfUptake(u, c))),
			u.uptake,
			u.residue,
		]),
		[
			"A flask shares the errors of its run with the other flasks of that run: flasks of one run are no replicates of the activation.",
			...(unlinked.length > 0
				? [
						`Without an activation run: ${unlinked.map((u) => u.flask.name).join(", ")}.`,
					]
				: []),
		],
	);
}

/** Uptake per gram of feedstock, with the firings on the way and their yield. */
export function feedstockTable(uptakes: readonly ActivatedUptake[]): Table {
	return table(
		"What the feedstock is good for",
		[
			"flask",
			"by way of",
			"char from dry feedstock",
			"uptake (mg/g)",
			"per dry feedstock (mg/g)",
		],
		uptakes.map((u) => [
			u.flask.name,
			u.activation.recorded ? u.activation.chain.join(", ") : "",
			u.activation.recorded ? cell(u.activation.yieldFromFeedstock) : "",
			u.uptake,
			cell(feedstockCapacity(u)),
		]),
		[
			"mg per gram of feedstock is grams per kilogram.",
			...(uptakes.some((u) => u.perGram === "char as weighed")
				? [
						"Some uptakes are per gram of char as weighed: per feedstock they come out too low by the char's moisture.",
					]
				: []),
		],
	);
}

/** What a gram taken up costs in each flask. */
export function uptakeCostTable(costs: readonly UptakeCost[]): Table {
	const text = (finding: Finding<"price">, currency: string): string =>
		finding.is === "not known"
			? ""
			: `${finding.is === "value" ? "" : `${finding.is} `}${moneyText(finding.quantity, currency)}`;
	return table(
		"Cost per gram taken up, at each flask's residue",
		["flask", "activation run", "energy", "agent", "in all"],
		costs.map(({ uptake, currency, energy, reagent, total }) => [
			uptake.flask.name,
			uptake.activation.recorded ? uptake.activation.figures.run.name : "",
			text(energy, currency),
			text(reagent, currency),
			text(total, currency),
		]),
		[
			"Energy and amounts of a bench run: a larger kiln wastes less heat. Costs at unlike residues do not rank the chars.",
		],
	);
}
