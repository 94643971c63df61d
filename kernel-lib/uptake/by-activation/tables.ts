import type { ActivationCondition, Finding } from "../../activation";
import { type Kind, type Table, type TableCell, table } from "../../quantity";
import { feedstockCapacity } from "./feedstock";
import { type ActivatedUptake, conditionOfUptake } from "./link";
import { unlinkedSentences } from "./sentences";

const cell = (finding: Finding<Kind>): TableCell =>
	finding.is === "not known" ? "" : finding;

/** What the ± of a table is. */
export const standardUncertainties =
	"After each ± stands one standard uncertainty (k = 1).";

/** A last column that names the runs whose balance does not close, where there are any: beside every figure that their masses are in. */
export function balanceColumn(uptakes: readonly ActivatedUptake[]): {
	readonly heads: readonly string[];
	readonly cells: (uptake: ActivatedUptake) => readonly string[];
} {
	const namesOf = ({ activation }: ActivatedUptake): readonly string[] =>
		activation.recorded ? activation.unbalanced : [];
	return uptakes.some((u) => namesOf(u).length > 0)
		? {
				heads: ["balance"],
				cells: (u) => [
					namesOf(u).length > 0
						? `does not close: ${namesOf(u).join(", ")}`
						: "",
				],
			}
		: { heads: [], cells: () => [] };
}

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
	const balance = balanceColumn(uptakes);
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
			...balance.heads,
		],
		uptakes.map((u) => [
			u.flask.name,
			u.flask.treatment,
			u.activation.recorded ? u.activation.figures.firing.name : "",
			...used.map((c) => cell(conditionOfUptake(u, c))),
			u.uptake,
			u.residue,
			...balance.cells(u),
		]),
		[
			"A flask shares the errors of its run with the other flasks of that run: flasks of one run are no replicates of the activation.",
			standardUncertainties,
			...(unlinked.length > 0
				? [
						`Without an activation run: ${unlinked.map((u) => u.flask.name).join(", ")}. ${unlinkedSentences(unlinked).join(" ")}`,
					]
				: []),
		],
	);
}

/** Uptake per gram of feedstock, with the firings on the way and their yield. */
export function feedstockTable(uptakes: readonly ActivatedUptake[]): Table {
	const balance = balanceColumn(uptakes);
	return table(
		"What the feedstock is good for",
		[
			"flask",
			"by way of",
			"char from dry feedstock",
			"uptake (mg/g)",
			"per dry feedstock (mg/g)",
			...balance.heads,
		],
		uptakes.map((u) => [
			u.flask.name,
			u.activation.recorded ? u.activation.chain.join(", ") : "",
			u.activation.recorded ? cell(u.activation.yieldFromFeedstock) : "",
			u.uptake,
			cell(feedstockCapacity(u)),
			...balance.cells(u),
		]),
		[
			"mg per gram of feedstock is grams per kilogram.",
			standardUncertainties,
			...(uptakes.some((u) => u.perGram === "char as weighed")
				? [
						"Some uptakes are per gram of char as weighed: per feedstock they come out too low by the char's moisture.",
					]
				: []),
		],
	);
}
