import type { ActivationCondition, Finding } from "../../activation";
import { type Kind, type Table, type TableCell, table } from "../../quantity";
import { feedstockCapacity } from "./feedstock";
import { type ActivatedUptake, conditionOfUptake } from "./link";

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
