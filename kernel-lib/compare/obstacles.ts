import type { AmmoniaNamed } from "../substances";
import { ammoniaInAny } from "../uptake";
import type { SoakAllowance } from "./allowance";
import { type Audited, feigning, findingsOf } from "./audit";
import type { PairDifference } from "./differences";
import { lossesOf, perGramOf } from "./likeness";
import type { Observation } from "./observations";
import type { Missing, Obstacle } from "./obstacle";
import type { Carrier } from "./over-slopes";
import type { Pair } from "./pairs";
import { probeOf } from "./probe";
import { doseFor, dosingOf, meanFlask } from "./residue-obstacles";
import { doseChange, type ResiduesOfPair } from "./residues";
import { middleOf } from "./slope";
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

/** Char batches of a treatment, each once; "" where one is not recorded. */
export function batchesOf(
	list: readonly Observation[],
	treatment: string,
): string[] {
	return [
		...new Set(
			list
				.filter((o) => o.treatment === treatment)
				.map((o) => o.flask.flask.charBatch),
		),
	];
}

/** Batches that were recorded and that the two sides do not share. */
export function batchObstacle(
	list: readonly Observation[],
	pair: Pair,
): readonly Obstacle[] {
	const treated = batchesOf(list, pair.treatment);
	const control = batchesOf(list, pair.control);
	const apart =
		treated.length > 0 &&
		control.length > 0 &&
		![...treated, ...control].includes("") &&
		!treated.some((b) => control.includes(b));
	return apart ? [{ is: "unlike batches", treated, control }] : [];
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

/** A word at the middle of the slopes that are allowed for, and not at all of them. */
export function slopeObstacle(
	word: VerdictWord,
	list: readonly Observation[],
	pair: Pair,
	residues: ResiduesOfPair,
	{ slopes }: Carrier,
): Obstacle {
	const ranges = [pair.treatment, pair.control].flatMap((t) => {
		const slope = slopes.get(t);
		return slope?.is === "range" ? [slope] : [];
	});
	return {
		is: "unlike residues",
		word,
		...pair,
		residues,
		slopes: {
			low: Math.min(...ranges.map((r) => r.low)),
			high: Math.max(...ranges.map((r) => r.high)),
		},
		doseChange: doseChange(residues),
		probe: probeOf(list),
		ammonia: ammoniaIn(list, ofPair(pair)),
	};
}

/** So many times up or down an uptake is carried along a slope that was not measured. Our decision. */
export const farthestCarried = 3;

/** Treatments of a pair with flasks too far from the residue of the comparison. */
export function farObstacles(
	{ treatment, control }: Pair,
	{ carriable, at, slopes }: Carrier,
): readonly Obstacle[] {
	return [treatment, control].flatMap((t): Obstacle[] => {
		const slope = slopes.get(t);
		if (slope === undefined || slope.is === "measured") return [];
		const own = carriable.list.filter(
			(f) => f.treatment === t && f.side === "value",
		);
		const residues = own.map((f) => f.residue);
		const low = Math.min(...residues);
		const high = Math.max(...residues);
		// Without a residue the lowest is Infinity and the highest minus Infinity, which is not too far.
		if (high <= farthestCarried * at && farthestCarried * low >= at) return [];
		const flasks = own.map((f) => f.flask);
		const flask = meanFlask(flasks);
		const nearest = own.reduce((a, b) =>
			Math.abs(Math.log(b.residue / at)) < Math.abs(Math.log(a.residue / at))
				? b
				: a,
		);
		const uptake = nearest.uptake * (at / nearest.residue) ** middleOf(slope);
		return [
			{
				is: "carried too far",
				treatment: t,
				residue: at,
				range: { low, high },
				dose: doseFor(flask, at, uptake),
				uptake,
				dosing: dosingOf(flasks, flask),
			},
		];
	});
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
	if (flasks.length === 0) return [];
	const every = list
		.filter(ofPair(pair))
		.map(({ name, flask: { contradiction, likelyCause } }) => ({
			flask: { name },
			contradiction,
			likelyCause,
		}));
	return [{ is: "contradiction", flasks, ofPair: every }];
}

/** The numbers alone would carry the word; with room for what the soaks may have left they do not. */
export function allowanceObstacle(
	word: VerdictWord,
	{ treatment, control }: Pair,
	{ low, high, steps }: SoakAllowance,
): Obstacle {
	return { is: "soak allowance", word, treatment, control, low, high, steps };
}

/** Conditions beyond their allowance that could have made the word. */
export function conditionObstacle(
	word: VerdictWord,
	list: readonly Observation[],
	pair: Pair,
	audited: readonly Audited[],
): readonly Obstacle[] {
	const findings = feigning(findingsOf(audited), word);
	return findings.length === 0
		? []
		: [
				{
					is: "unlike conditions",
					word,
					...pair,
					findings,
					ammonia: ammoniaIn(list, ofPair(pair)),
				},
			];
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
