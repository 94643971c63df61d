import { balanceFaults, type FiringYields, yields } from "../activation";
import { firingDeviations, firingKey, type Trial } from "../bench";
import { charLots, residuesAlike } from "../compare";
import {
	expandedText,
	grouped,
	meanOf,
	type Quantity,
	quoted,
} from "../quantity";
import {
	type FiringUptake,
	firingName,
	firingRoutes,
	unlinkedSentences,
	uptakesByFiring,
	withoutFlasks,
} from "../uptake";

import type { AnswerInWords } from "./answer-words";
import {
	lotFinding,
	lotLimits,
	lotTable,
	notRankedSentences,
} from "./lot-words";
import { rangeText } from "./wording";
import { yieldAnswerTable, yieldFinding } from "./yield-words";

/** One firing in a sentence: yield and burn-off with their 95 % intervals in brackets, and whether its weighings balance. */
export function yieldSentence(yields: FiringYields): string {
	const found = (
		[
			["char yield", yields.charYield],
			["burn-off", yields.burnOff],
		] as const
	).flatMap(([name, result]) =>
		result.is === "not known"
			? []
			: [
					`${name} ${result.is === "value" ? "" : `${result.is} `}${expandedText(result.quantity)}`,
				],
	);
	const faults = balanceFaults(yields);
	return `${quoted(yields.firing.name)}: ${found.length === 0 ? "no yield is known" : found.join(", ")}${faults.length === 0 ? "" : `, not to be relied on, for its balance does not close (${faults.join("; ")})`}.`;
}

const rangeOf = (values: readonly number[]): string =>
	rangeText(Math.min(...values), Math.max(...values));

/** Mean of flasks with its 95 % interval; the range where one of them is a limit, or where they stand at unlike residues. */
function meanText(
	measured: readonly {
		readonly is: string;
		readonly quantity: Quantity<"uptake">;
	}[],
	alike: boolean,
): string {
	const bounded = measured.filter((m) => m.is !== "value");
	if (bounded.length === 0 && alike)
		return expandedText(meanOf(measured.map((m) => m.quantity.to("mg/g"))));
	const range = `${rangeOf(measured.map((m) => m.quantity.in("mg/g")))} mg/g`;
	if (bounded.length === 0)
		return `${range}, not averaged at residues so unlike`;
	const limits = [...grouped(bounded, (m) => m.is)].map(
		([is, own]) => `${own.length} of ${measured.length} only ${is}`,
	);
	return `${range} (${limits.join(", ")})`;
}

/** What the flasks of one firing, treatment and soak took up. */
function groupWords(own: readonly FiringUptake[]): string {
	const [{ firing, flask, probe }] = own;
	const residues = own.map((u) => u.residue.quantity.in("mg/L"));
	const alike = Math.max(...residues) <= residuesAlike * Math.min(...residues);
	const capacities = own.flatMap(({ perFeedstock }) =>
		perFeedstock.is === "not known" ? [] : [perFeedstock],
	);
	const unbalanced = firing.is === "linked" ? firing.unbalanced : [];
	const feedstock =
		capacities.length < own.length
			? ""
			: `; per gram of dry feedstock ${meanText(capacities, alike)}${unbalanced.length === 0 ? "" : `, on a balance that does not close${unbalanced.join() === firingName(own[0]) ? "" : ` (${unbalanced.map(quoted).join(", ")})`}`}`;
	const soak =
		firing.is === "linked" &&
		firing.linkedBy === "char batch" &&
		flask.soak !== ""
			? `, firing taken from the char batch, as the soak ${quoted(flask.soak)} is no firing`
			: "";
	return `${own.length} flask${own.length === 1 ? "" : "s"}${soak}: ${meanText(
		own.map((u) => u.uptake),
		alike,
	)} of ${probe} at a residue of ${rangeOf(residues)} mg/L${feedstock}`;
}

/**
 * What the flasks of a firing took up, a text for each treatment and soak, with the residue and what that is per gram of dry feedstock; a 95 % interval stands in brackets. Means carry the measuring
 * uncertainty, correlations included. Flasks of two treatments or soaks are never averaged with one another, nor those at unlike residues.
 */
export function firingWords(own: readonly FiringUptake[]): string[] {
	const groups = grouped(own, ({ flask }) =>
		JSON.stringify([flask.treatment, firingKey(flask.soak)]),
	);
	return [...groups.values()].map((group) =>
		groups.size === 1
			? groupWords(group)
			: `${quoted(group[0].flask.treatment)}, ${groupWords(group)}`,
	);
}

/** A line a firing: yield and burn-off, then what its flasks took up; then flasks without a firing, and what the intervals are. */
export function answerOf(
	yields: readonly FiringYields[],
	uptakes: readonly FiringUptake[],
): string[] {
	return [
		...yields.map((own) =>
			[
				yieldSentence(own),
				...firingWords(
					uptakes.filter((u) => firingName(u) === own.firing.name),
				).map((words) => `${words}.`),
			].join(" "),
		),
		...unlinkedSentences(uptakes),
	];
}

/**
 * The answer of a trial of firings: which char takes up most per gram of char, and which firing makes most of a gram of feedstock, each named with its basis, or which of them cannot be told apart. Beside it a row for each lot of char; behind it what each
 * firing gave, flasks without a firing, and what was left out. A sheet of firings alone has yields.
 * @throws ProblemError where the trial has no firing or cannot give uptakes
 * @example
 * words.firingAnswer(kilnTrial).finding.startsWith("Highest uptake of iodine per gram of char: ") // => true
 */
export function firingAnswer(trial: Trial): AnswerInWords {
	const uptakes = uptakesByFiring(trial);
	const routes = firingRoutes(trial);
	const lots = charLots(uptakes, routes);
	const astray = [...withoutFlasks(trial), ...firingDeviations(trial)];
	const behind = answerOf(yields(trial), uptakes);
	if (lots.length === 0)
		return {
			finding: yieldFinding(routes),
			table: yieldAnswerTable(routes),
			statements: [...astray, ...behind],
		};
	return {
		finding: lotFinding(lots, trial.probe.name),
		table: lotTable(lots),
		statements: [
			...lotLimits(lots),
			...astray,
			...notRankedSentences(lots),
			...behind,
		],
	};
}
