import type { ActivationCondition } from "../../activation";
import {
	type Kind,
	type Measured,
	type NotKnown,
	type Table,
	type TableCell,
	table,
} from "../../quantity";
import { conditionOfUptake, type FiringUptake } from "./link";
import { unlinkedSentences } from "./unlinked";

const cell = (result: Measured<Kind> | NotKnown): TableCell =>
	result.is === "not known" ? "" : result;

/** Name of the firing; "" where none is known. */
export const firingName = ({ firing }: FiringUptake): string =>
	firing.is === "linked" ? firing.yields.firing.name : "";

/** What the u of a table is. */
export const standardUncertainties =
	"u is the standard uncertainty of the measuring error.";

/** A last column that names the firings whose balance does not close, where there are any: beside every figure that their masses are in. */
export function balanceColumn(uptakes: readonly FiringUptake[]): {
	readonly heads: readonly string[];
	readonly cells: (uptake: FiringUptake) => readonly string[];
} {
	const namesOf = ({ firing }: FiringUptake): readonly string[] =>
		firing.is === "linked" ? firing.unbalanced : [];
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

/** Every uptake beside its firing: what was done, burn-off, yield. */
export function uptakeTableOf(
	uptakes: readonly FiringUptake[],
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
	const unlinked = uptakes.filter((u) => u.firing.is === "not known");
	return table(
		`${uptakes.length === 0 ? "Uptake" : `Uptake of ${uptakes[0].probe}`} in each flask, and the firing that its char came from`,
		[
			"flask",
			"treatment",
			"firing",
			...used,
			"uptake (mg/g)",
			"at residual concentration (mg/L)",
			...balance.heads,
		],
		uptakes.map((u) => [
			u.flask.name,
			u.flask.treatment,
			firingName(u),
			...used.map((c) => cell(conditionOfUptake(u, c))),
			u.uptake,
			u.residue,
			...balance.cells(u),
		]),
		[
			"A flask shares the errors of its firing with the other flasks of that firing: flasks of one firing are no replicates of the activation.",
			standardUncertainties,
			...(unlinked.length > 0
				? [
						`Without a firing: ${unlinked.map((u) => u.flask.name).join(", ")}. ${unlinkedSentences(unlinked).join(" ")}`,
					]
				: []),
		],
	);
}

/** Uptake per gram of feedstock, with the firings on the way and their yield. */
export function feedstockTableOf(uptakes: readonly FiringUptake[]): Table {
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
			u.firing.is === "linked" ? u.firing.chain.join(", ") : "",
			u.firing.is === "linked" ? cell(u.firing.yieldFromFeedstock) : "",
			u.uptake,
			cell(u.perFeedstock),
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
