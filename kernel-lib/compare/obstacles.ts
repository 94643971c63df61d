import type { AmmoniaNamed } from "../substances";
import { ammoniaInAny, contradictionsTold } from "../uptake";
import type { SoakAllowance } from "./allowance";
import type { PairDifference } from "./differences";
import { lossesOf, perGramOf } from "./likeness";
import type { Observation } from "./observations";
import type { Missing, Obstacle } from "./obstacle";
import type { Pair } from "./pairs";
import { probeOf } from "./probe";
import { comparable, doseChange, type ResiduesOfPair } from "./residues";
import { forbiddenBy } from "./suspicion";
import type { UnitLevel } from "./units";
import type { VerdictWord } from "./word";

/** Whether iodine would meet ammonia in flasks that are dosed again. */
export function ammoniaIn(
	list: readonly Observation[],
	concerns: (o: Observation) => boolean,
): AmmoniaNamed {
	return ammoniaInAny(list.filter(concerns).map((o) => o.flask));
}

const ofPair =
	({ treatment, control }: Pair) =>
	(o: Observation): boolean =>
		o.treatment === treatment || o.treatment === control;

export function missingObstacle(
	why: Missing,
	list: readonly Observation[],
	{ treatment, control }: Pair,
): Obstacle {
	const ammonia = ammoniaIn(list, ofPair({ treatment, control }));
	return { is: why, treatment, control, ammonia };
}

/** Bounds that do not carry a word. `found`: the words without the flasks and with them at their limit. */
export function boundObstacle(
	list: readonly Observation[],
	{ flasks, side }: Extract<PairDifference, { is: "one-sided" }>,
	found: readonly [VerdictWord, VerdictWord],
): Obstacle {
	const own = list.filter((o) => flasks.includes(o.name));
	return {
		is: "only bounds",
		flasks,
		provable: side === "at least" ? "higher" : "lower",
		found,
		dilute:
			own.length > 0 && own.every((o) => o.flask.residue.is === "at least"),
		ammonia: ammoniaInAny(own.map((o) => o.flask)),
	};
}

export function perGramObstacle(
	list: readonly Observation[],
	pair: Pair,
): readonly Obstacle[] {
	return perGramOf(list, pair) === "both"
		? [{ is: "unlike grams", treatments: [pair.treatment, pair.control] }]
		: [];
}

/** One soak gives no word about a treatment, however little the soaks of other treatments scatter. */
export function oneSoakObstacle(
	list: readonly Observation[],
	pair: Pair,
	level: UnitLevel,
): readonly Obstacle[] {
	if (level !== "soak") return [];
	const treatments = [pair.treatment, pair.control].filter((t) => {
		const soaks = list.flatMap((o) =>
			o.treatment === t ? [o.flask.flask.soak] : [],
		);
		return new Set(soaks).size === 1;
	});
	return treatments.length > 0 ? [{ is: "one soak", treatments }] : [];
}

export function lossObstacle(
	list: readonly Observation[],
	{ treatment, control }: Pair,
): readonly Obstacle[] {
	return lossesOf(list, { treatment, control }) === "unlike"
		? [{ is: "unlike losses", treatment, control, probe: probeOf(list) }]
		: [];
}

export function residueObstacle(
	word: VerdictWord,
	list: readonly Observation[],
	pair: Pair,
	residues: ResiduesOfPair,
): readonly Obstacle[] {
	if (comparable(word, residues)) return [];
	return [
		{
			is: "unlike residues",
			word,
			treatment: pair.treatment,
			residues,
			doseChange: doseChange(residues),
			probe: probeOf(list),
			ammonia: ammoniaIn(list, ofPair(pair)),
		},
	];
}

/** Flasks of a pair whose own numbers cannot all be right. */
export function contradicted(
	list: readonly Observation[],
	pair: Pair,
): readonly Observation[] {
	return list.filter((o) => ofPair(pair)(o) && o.flask.contradiction !== "");
}

/** No word stands on flasks whose own numbers cannot all be right. */
export function contradictionObstacle(
	list: readonly Observation[],
	pair: Pair,
): readonly Obstacle[] {
	const flasks = contradicted(list, pair).map((o) => o.name);
	const told = contradictionsTold(
		list.filter(ofPair(pair)).map((o) => o.flask),
	);
	return flasks.length === 0 ? [] : [{ is: "contradiction", flasks, told }];
}

/** The numbers alone would carry the word; with room for what the soaks may have left they do not. */
export function allowanceObstacle(
	word: VerdictWord,
	{ treatment, control }: Pair,
	{ low, high, steps }: SoakAllowance,
): Obstacle {
	return { is: "soak allowance", word, treatment, control, low, high, steps };
}

export function demandObstacles(
	word: VerdictWord,
	list: readonly Observation[],
	pair: Pair,
): readonly Obstacle[] {
	return forbiddenBy(word, list, pair).map((s) => ({
		is: "soak remains",
		word,
		...s,
		ofControl: s.treatment !== pair.treatment,
		ammonia: ammoniaIn(list, (o) => o.treatment === s.treatment),
	}));
}
