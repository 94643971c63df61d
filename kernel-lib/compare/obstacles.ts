import { listed } from "../quantity";
import { contradictionsTold, soakMay, soakMayLook } from "../uptake";
import type { Missing, PairDifference } from "./differences";
import { lossesOf, perGramOf } from "./likeness";
import type { Observation } from "./observations";
import type { Pair } from "./pairs";
import { probeBlank, probeCounted, probeOf } from "./probe";
import { comparable, doseChange, type ResiduesOfPair } from "./residues";
import { forbiddenBy } from "./suspicion";
import type { VerdictWord } from "./verdict";
import { capital, flasksNamed, roughly, sentence } from "./words";

/** Something that more replicates would not mend and that takes a word away. */
export interface Obstacle {
	/** After "cannot tell: ", in the head of the page. */
	readonly headline: string;
	/** A full sentence: why, and what would mend it. */
	readonly reason: string;
	/** Dose that would make the residues comparable; "" for other obstacles. */
	readonly comparableDose: string;
}

function obstacle(headline: string, reason: string, dose = ""): Obstacle {
	return { headline, reason, comparableDose: dose };
}

export function missingObstacle(why: Missing, pair: Pair): Obstacle {
	const { treatment, control } = pair;
	switch (why) {
		case "no control":
			return obstacle(
				"there is no control to compare it with",
				`The sheet names no control for "${treatment}": add flasks of char that was handled alike in everything but the treatment, and name them in the column "control".`,
			);
		case "no treated flask":
			return obstacle(
				"none of its flasks is left",
				`Every flask of "${treatment}" was left out because of a deviation, so that there is nothing to compare.`,
			);
		case "no control flask":
			return obstacle(
				"none of its control's flasks is left",
				`Every flask of the control "${control}" was left out because of a deviation, so that there is nothing to compare with.`,
			);
		case "days":
			return obstacle(
				"treatment and day cannot be told apart",
				`"${treatment}" and its control "${control}" were not measured on common days, so that a difference between them may be one between days: measure some flasks of both on the same day.`,
			);
		case "no spread":
			return obstacle(
				"there is nothing to judge the difference by",
				`The flasks of "${treatment}" and "${control}" show no scatter and no measuring error is stated, so that no interval can be given: state the glassware, or measure more flasks.`,
			);
		case "bounds on both sides":
			return obstacle(
				"bounds on both sides",
				`Flasks of "${treatment}" and of its control "${control}" gave only bounds that pull in opposite directions, so that nothing is known of the difference: dose them again so that a residue and an uptake can be measured.`,
			);
	}
}

/** What would turn bounds into values: another dose, or, where an instrument read beyond its line, another dilution. */
function remedyOf(
	list: readonly Observation[],
	flasks: readonly string[],
): string {
	const own = list.filter((o) => flasks.includes(o.name));
	return own.length > 0 && own.every((o) => o.flask.residue.is === "at least")
		? "Dilute what is left of the filtrate and read it again."
		: "Dose again so that a residue can be measured.";
}

/** Bounds that do not carry a word. `found`: the words without the flasks and with them at their limit. */
export function boundObstacle(
	list: readonly Observation[],
	difference: Extract<PairDifference, { is: "one-sided" }>,
	found: readonly [VerdictWord, VerdictWord],
): Obstacle {
	const flasks = flasksNamed(difference.flasks);
	const side = difference.side === "at least" ? "higher" : "lower";
	const remedy = remedyOf(list, difference.flasks);
	return obstacle(
		`${flasks} gave only a bound`,
		found[0] === found[1]
			? `${capital(flasks)} gave only a bound, which can show "${side}" and nothing else; the interval, without and with it at its limit, does not show that. ${remedy}`
			: `${capital(flasks)} gave only a bound: without it the word would be "${found[0]}", with it at its limit "${found[1]}", and only what holds both ways and on the bound's own side ("${side}") is said. ${remedy}`,
	);
}

export function perGramObstacle(
	list: readonly Observation[],
	pair: Pair,
): readonly Obstacle[] {
	return perGramOf(list, pair) === "both"
		? [
				obstacle(
					"not per gram of the same thing",
					`Some uptakes of "${pair.treatment}" and "${pair.control}" are per gram of dry char and some per gram as weighed: give the moisture of all of them.`,
				),
			]
		: [];
}

export function lossObstacle(
	list: readonly Observation[],
	pair: Pair,
): readonly Obstacle[] {
	return lossesOf(list, pair) === "unlike"
		? [
				obstacle(
					"losses were taken off one side only",
					`On one day losses of ${probeOf(list)} were taken off some flasks of "${pair.treatment}" and "${pair.control}" and not off others: ${probeOf(list) === "iodine" ? "an" : "a"} ${probeBlank(list)} must serve both or neither.`,
				),
			]
		: [];
}

export function residueObstacle(
	word: VerdictWord,
	list: readonly Observation[],
	pair: Pair,
	r: ResiduesOfPair,
): readonly Obstacle[] {
	if (comparable(word, r)) return [];
	const change = doseChange(r);
	const dose = `Dose each flask of "${pair.treatment}" with about ${roughly(Math.abs(change))} mg ${probeCounted(list)} ${change < 0 ? "less" : "more"}, or its control with as much ${change < 0 ? "more" : "less"}: a first-order estimate, since the uptake shifts with the residue.`;
	const needs =
		word === "no difference that matters"
			? "for residues as far apart as these an equal uptake is no proof of an equal char"
			: `"${word}" is proven only at ${word === "higher" ? "an equal or lower" : "an equal or higher"} residue`;
	return [
		obstacle(
			"not compared at the same residue",
			`"${pair.treatment}" stands at a residue of ${roughly(r.treated)} mg/L and its control at ${roughly(r.control)} mg/L; uptake grows with the residue, and ${needs}.`,
			dose,
		),
	];
}

/** So many flasks are named, more are counted. */
const mostTold = 3;

function ofPair(
	list: readonly Observation[],
	{ treatment, control }: Pair,
): readonly Observation[] {
	return list.filter(
		(o) => o.treatment === treatment || o.treatment === control,
	);
}

/** Flasks of a pair whose own numbers cannot all be right. */
export function contradicted(
	list: readonly Observation[],
	pair: Pair,
): readonly Observation[] {
	return ofPair(list, pair).filter((o) => o.flask.contradiction !== "");
}

/** No word stands on flasks whose own numbers cannot all be right. */
export function contradictionObstacle(
	list: readonly Observation[],
	pair: Pair,
): readonly Obstacle[] {
	const own = contradicted(list, pair);
	if (own.length === 0) return [];
	const names = own.map((o) => o.name);
	return [
		obstacle(
			`the numbers of ${names.length > mostTold ? `${names.length} flasks` : flasksNamed(names)} cannot all be right`,
			contradictionsTold(ofPair(list, pair).map((o) => o.flask)).join(" "),
		),
	];
}

export function demandObstacles(
	word: VerdictWord,
	list: readonly Observation[],
	pair: Pair,
): readonly Obstacle[] {
	return forbiddenBy(word, list, pair).map((s) =>
		obstacle(
			s.treatment === pair.treatment
				? `what is left of its soak ${soakMay[s.looksLike]}`
				: `what is left of its control's soak ${soakMay[s.looksLike]}`,
			sentence(
				`What is left of the soak of "${s.treatment}" ${soakMayLook[s.looksLike]} (${flasksNamed(s.flasks)}: ${listed(s.because)}), so that "${word}" is not said; a leachate, dosed and titrated, would settle it`,
			),
		),
	);
}
