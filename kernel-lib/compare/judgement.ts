import type { SoakAllowance } from "./allowance";
import { type Audited, auditedAt } from "./audit";
import type { PairDifference } from "./differences";
import { finite } from "./finite";
import type { Observation } from "./observations";
import type { Obstacle } from "./obstacle";
import {
	allowanceObstacle,
	batchObstacle,
	boundObstacle,
	conditionObstacle,
	contradicted,
	contradictionObstacle,
	demandObstacles,
	farObstacles,
	lossObstacle,
	missingObstacle,
	oneSoakObstacle,
	perGramObstacle,
	slopeObstacle,
} from "./obstacles";
import type { Carrier } from "./over-slopes";
import type { Pair } from "./pairs";
import type { Reckoned } from "./reckoning";
import { type ResiduesOfPair, residuesOfPair } from "./residues";
import { soakAllowance, withAllowance } from "./soak-allowance";
import { suspicionOf } from "./suspicion";
import type { UnitLevel } from "./units";
import type { Difference } from "./verdict";
import {
	firstTold,
	type Interval,
	liesBeyond,
	type Rule,
	type VerdictWord,
	wordFor,
} from "./word";
import { forbiddenWords, type WordGround } from "./word-at";

/** A word for one pair, with what kept it from being a stronger one. */
export interface Judgement {
	readonly pair: Pair;
	/** "no curve": compared at a stated residue, and one of the two has no isotherm that reaches it, or their curves have no day in common. */
	readonly difference:
		| PairDifference
		| { readonly is: "missing"; readonly why: "no curve" };
	/** Room for what the soaks may have left; the difference has it in its ends. */
	readonly allowance: SoakAllowance;
	/** What the numbers alone say, before anything that forbids it: with room for soaks and slopes, or, where that leaves nothing to say, without. */
	readonly numbersSay: VerdictWord;
	readonly word: VerdictWord;
	/** What the other way of judging sameness would have said. */
	readonly otherwise: VerdictWord;
	readonly margin: Rule["margin"];
	/** What the word at any other margin follows from. */
	readonly ground: WordGround;
	/** Only where the word is said. */
	readonly exceedsMargin: boolean;
	readonly obstacles: readonly Obstacle[];
	/** Every condition that a sheet may record, as it stands on the two sides. */
	readonly audited: readonly Audited[];
	/** Mean residues; the pair has none where one of its groups is empty. */
	readonly residues:
		| ({ readonly is: "known" } & ResiduesOfPair)
		| { readonly is: "unknown" };
}

/** The end of a one-sided difference that is known, without the bounds and at them, whichever says less. */
export function limitOf(
	d: Extract<PairDifference, { is: "one-sided" }>,
): number {
	return d.side === "at least"
		? Math.min(d.without.low, d.atLimit.low)
		: Math.max(d.without.high, d.atLimit.high);
}

/** How what is shown of a difference was reckoned, before room is left for soaks. */
export function reckonedOf(j: Judgement): Reckoned {
	const d = j.difference;
	if (d.is === "missing") return { is: "nothing" };
	if (d.is === "interval") return d.reckoned;
	const { without, atLimit } = d.reckoned;
	const weaker =
		d.side === "at least"
			? d.atLimit.low < d.without.low
			: d.atLimit.high > d.without.high;
	return { is: d.side, limit: weaker ? atLimit : without };
}

function wordsOfBounds(
	d: Extract<PairDifference, { is: "one-sided" }>,
	rule: Rule,
): [VerdictWord, VerdictWord] {
	return [wordFor(d.without, rule), wordFor(d.atLimit, rule)];
}

/** The only word that a one-sided difference can carry. */
function provableBy(side: "at least" | "at most"): "higher" | "lower" {
	return side === "at least" ? "higher" : "lower";
}

/** A bound proves a difference on its own side only, and only where the word is the same without the flasks and with them at their limit. */
function wordOf(d: PairDifference, rule: Rule): VerdictWord {
	if (d.is === "missing") return "cannot tell";
	if (d.is === "interval")
		return wordFor(
			d.interval,
			rule,
			rule.sameness === "interval" ? d.interval : d.oneSided,
		);
	const provable = provableBy(d.side);
	return wordsOfBounds(d, rule).every((w) => w === provable)
		? provable
		: "cannot tell";
}

function beyond(d: PairDifference, { margin }: Rule): boolean {
	if (d.is === "missing") return false;
	if (d.is === "interval") return liesBeyond(d.interval, margin);
	const limit = limitOf(d);
	const known: Interval =
		d.side === "at least"
			? { low: limit, high: Number.POSITIVE_INFINITY }
			: { low: Number.NEGATIVE_INFINITY, high: limit };
	return liesBeyond(known, margin);
}

/** What stands behind the judgement of a pair. */
export interface Judged {
	/** The difference at the middle of the slopes that are allowed for, and whatever they are. */
	readonly middle: PairDifference;
	readonly difference: PairDifference;
	readonly list: readonly Observation[];
	readonly carrier: Carrier;
	readonly level: UnitLevel;
	readonly rule: Rule;
	readonly audit: readonly Audited[];
}

/** What makes two groups unlike each other: it forbids every word. */
function likenessObstacles(
	{ list, carrier }: Judged,
	pair: Pair,
): readonly Obstacle[] {
	return [
		...contradictionObstacle(list, pair),
		...perGramObstacle(list, pair),
		...lossObstacle(list, pair),
		...batchObstacle(list, pair),
		...farObstacles(pair, carrier),
	];
}

/** What forbids this word and perhaps no other. */
function obstaclesTo(
	word: VerdictWord,
	{ list, level }: Judged,
	pair: Pair,
	audited: readonly Audited[],
): readonly Obstacle[] {
	return [
		...oneSoakObstacle(list, pair, level),
		...demandObstacles(word, list, pair),
		...conditionObstacle(word, list, pair, audited),
	];
}

function obstaclesOf(
	judged: Judged,
	numbersSay: VerdictWord,
	pair: Pair,
	residues: Judgement["residues"],
	audited: readonly Audited[],
): Obstacle[] {
	const { middle: d, difference, list, carrier, rule } = judged;
	if (d.is === "missing")
		return [
			...contradictionObstacle(list, pair),
			missingObstacle(d.why, list, pair),
		];
	const likeness = likenessObstacles(judged, pair);
	if (numbersSay === "cannot tell")
		return d.is === "one-sided"
			? [
					...likeness,
					...demandObstacles(provableBy(d.side), list, pair),
					...conditionObstacle(provableBy(d.side), list, pair, audited),
					boundObstacle(list, d, wordsOfBounds(d, rule)),
				]
			: [...likeness];
	return [
		...likeness,
		...obstaclesTo(numbersSay, judged, pair, audited),
		...(residues.is === "known" && wordOf(difference, rule) === "cannot tell"
			? [slopeObstacle(numbersSay, list, pair, residues, carrier)]
			: []),
	];
}

/** The intervals by which a difference is judged, each with what must lie inside the margin. */
function intervalsOf(
	d: PairDifference,
	{ sameness }: Rule,
): WordGround["judged"] {
	switch (d.is) {
		case "missing":
			return [];
		case "interval":
			return [
				{
					interval: d.interval,
					within: sameness === "interval" ? d.interval : d.oneSided,
				},
			];
		case "one-sided":
			return [d.without, d.atLimit].map((i) => ({ interval: i, within: i }));
	}
}

function groundOf(
	judged: Judged,
	allowed: PairDifference,
	pair: Pair,
): WordGround {
	const { middle, rule } = judged;
	const likeness = likenessObstacles(judged, pair);
	return {
		claim: rule.claim,
		judged: intervalsOf(allowed, rule),
		provable: middle.is === "one-sided" ? provableBy(middle.side) : "any",
		forbidden: forbiddenWords(judged.audit, (word, audited) => [
			...likeness,
			...obstaclesTo(word, judged, pair, audited),
		]),
	};
}

/**
 * What the numbers say, then everything that forbids saying it. The widest of the intervals holds the others, so that what it shows is shown by all of them; what only a narrower one would show is told with what it lacks
 * (a slope, a limit of the soaks).
 */
function said(
	judged: Judged,
	pair: Pair,
	allowed: PairDifference,
	about: Pick<Judgement, "allowance" | "residues" | "audited">,
): Pick<Judgement, "numbersSay" | "obstacles" | "word"> {
	const { middle, difference, rule } = judged;
	const widestFirst = [allowed, difference, middle];
	const words = widestFirst.map((d) => wordOf(d, rule));
	const numbersSay = firstTold(words);
	const obstacles = [
		...obstaclesOf(judged, numbersSay, pair, about.residues, about.audited),
		...(words[0] === "cannot tell" && words[1] !== "cannot tell"
			? [allowanceObstacle(numbersSay, pair, about.allowance)]
			: []),
	];
	const word = obstacles.length > 0 ? "cannot tell" : numbersSay;
	return { numbersSay, obstacles, word };
}

const otherSameness = {
	interval: "one-sided tests",
	"one-sided tests": "interval",
} as const;

/** The word of a pair, and the one that the other way of judging sameness would have said. */
export function judge(pair: Pair, judged: Judged): Judgement {
	const { difference, list, level, rule } = judged;
	const present = [pair.treatment, pair.control].every((t) =>
		list.some((o) => o.treatment === t),
	);
	const residues: Judgement["residues"] = present
		? { is: "known", ...residuesOfPair(list, pair, level) }
		: { is: "unknown" };
	const allowance = soakAllowance(list, pair);
	const allowed = withAllowance(difference, allowance);
	const audited = auditedAt(judged.audit, rule.margin);
	const about = { allowance, residues, audited };
	const { numbersSay, obstacles, word } = said(judged, pair, allowed, about);
	const sameness = otherSameness[rule.sameness];
	const other = said(
		{ ...judged, rule: { ...rule, sameness } },
		pair,
		allowed,
		about,
	);
	return {
		pair,
		difference: allowed,
		allowance,
		numbersSay,
		word,
		otherwise: other.word,
		margin: rule.margin,
		ground: groundOf(judged, allowed, pair),
		exceedsMargin: word !== "cannot tell" && beyond(allowed, rule),
		obstacles,
		audited,
		residues,
	};
}

/**
 * The difference as the result shows it.
 *
 * A bound is in doubt where the numbers of a flask of the pair cannot all be right, and where what is left of the treated char's soak may consume iodine: then what a dry flask used up is no least
 * uptake of the char.
 *
 * @param list flasks that were looked at, those of the pair among them
 * @param adjustedPs of the family of simultaneous intervals, in its order
 */
export function shownDifference(
	j: Judgement,
	list: readonly Observation[],
	adjustedPs: readonly number[],
): Difference {
	const d = j.difference;
	if (d.is === "missing")
		return { is: "not available", why: "nothing to compare" };
	if (d.is === "one-sided") return shownBound(d, list, j.pair);
	return {
		is: "estimate",
		estimate: d.estimate,
		standardError: Math.sqrt(d.errors.variance),
		low: d.interval.low,
		high: d.interval.high,
		oneSided: d.oneSided,
		degreesOfFreedom: finite(d.errors.degreesOfFreedom),
		adjustedP: adjustedPs[d.index],
	};
}

function shownBound(
	d: Extract<PairDifference, { is: "one-sided" }>,
	list: readonly Observation[],
	pair: Pair,
): Difference {
	if (contradicted(list, pair).length > 0)
		return { is: "not available", why: "contradiction" };
	const { side, flasks, without, atLimit } = d;
	const suspected =
		suspicionOf(list, pair.treatment, "more uptake").flasks.length > 0;
	return side === "at least" && suspected
		? { is: "not available", why: "soak remains", flasks }
		: { is: side, limit: limitOf(d), flasks, without, atLimit };
}
