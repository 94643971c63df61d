import { type Audited, auditedAt } from "./audit";
import type { CurveEstimate, CurveOrNot } from "./curve-estimate";
import { finite } from "./finite";
import type { Judgement } from "./judgement";
import type { Observation } from "./observations";
import type { Obstacle } from "./obstacle";
import {
	allowanceObstacle,
	batchObstacle,
	conditionObstacle,
	contradictionObstacle,
	demandObstacles,
	lossObstacle,
	missingObstacle,
	perGramObstacle,
} from "./obstacles";
import type { Pair } from "./pairs";
import type { Reckoning } from "./reckoning";
import type { CurveDifference, CurveDifferences } from "./residue-differences";
import { soakAllowance, wider } from "./soak-allowance";
import {
	firstTold,
	liesBeyond,
	type Rule,
	type VerdictWord,
	wordFor,
} from "./word";
import { forbiddenWords } from "./word-at";

/** What stands behind the judgement of all pairs at one stated residue. */
export interface JudgedAtResidue {
	readonly curves: ReadonlyMap<string, CurveOrNot>;
	readonly differences: CurveDifferences;
	readonly list: readonly Observation[];
	readonly ruleFor: (pair: Pair) => Rule;
	readonly auditFor: (pair: Pair) => readonly Audited[];
}

/** Days on which only one of the two was measured do no harm; without a common day what lies between them may be all between days. */
export function noCommonDay(list: readonly Observation[], pair: Pair): boolean {
	const days = (treatment: string): Set<string> =>
		new Set(
			list
				.filter((o) => o.treatment === treatment)
				.map((o) => o.flask.flask.day),
		);
	const treated = days(pair.treatment);
	return ![...days(pair.control)].some((d) => treated.has(d));
}

/** Why the uptakes of a pair at the stated residue cannot be had at all; empty where they can. */
function withoutCurve(pair: Pair, g: JudgedAtResidue): Obstacle[] {
	if (pair.control === "") return [missingObstacle("no control", g.list, pair)];
	const obstacles = [pair.treatment, pair.control].flatMap((t) => {
		const curve = g.curves.get(t);
		return curve?.is === "none" ? [curve.obstacle] : [];
	});
	if (obstacles.length > 0) return obstacles;
	if (noCommonDay(g.list, pair))
		return [missingObstacle("no common day", g.list, pair)];
	return g.differences.family.some((d) => d.pair === pair)
		? []
		: [missingObstacle("no spread", g.list, pair)];
}

/** What makes the two sides of a pair unlike, whatever word the numbers carry. */
function unlikeness(list: readonly Observation[], pair: Pair): Obstacle[] {
	return [
		...contradictionObstacle(list, pair),
		...perGramObstacle(list, pair),
		...lossObstacle(list, pair),
		...batchObstacle(list, pair),
	];
}

/** The judgement of a pair of which one side has no uptake at the residue. */
function withoutNumbers(
	pair: Pair,
	list: readonly Observation[],
	{ margin, claim }: Rule,
): Omit<Judgement, "obstacles" | "audited"> {
	return {
		pair,
		difference: { is: "missing", why: "no curve" },
		allowance: soakAllowance(list, pair),
		numbersSay: "cannot tell",
		word: "cannot tell",
		otherwise: "cannot tell",
		margin,
		ground: { claim, judged: [], provable: "any", forbidden: [] },
		exceedsMargin: false,
		residues: { is: "unknown" },
	};
}

function onIsotherm({ uptake, scatterVariance, shared }: CurveEstimate) {
	let variance = scatterVariance;
	for (const effect of shared.values()) variance += effect ** 2;
	return { uptake, standardError: Math.sqrt(variance) };
}

function reckonedOnIsotherms(
	d: CurveDifference,
	criticalValue: number,
): Reckoning {
	return {
		estimate: d.estimate,
		variances: {
			scatter: d.scatterVariance,
			shared: d.sharedVariance,
			slopes: 0,
			readings: 0,
		},
		degreesOfFreedom: finite(d.degreesOfFreedom),
		criticalValue,
		ofLimits: 0,
		weighed: {
			is: "isotherms",
			treated: onIsotherm(d.treated),
			control: onIsotherm(d.control),
		},
	};
}

/**
 * The word of one pair at the stated residue: the same order of words as without isotherms, and the same obstacles but one, for the residues are now alike by construction. What a soak may consume still
 * caps the word, for it lies in the curve.
 */
export function judgeAtResidue(pair: Pair, g: JudgedAtResidue): Judgement {
	const { list, differences } = g;
	const rule = g.ruleFor(pair);
	const audit = g.auditFor(pair);
	const audited = auditedAt(audit, rule.margin);
	const missing = withoutCurve(pair, g);
	if (missing.length > 0)
		return {
			...withoutNumbers(pair, list, rule),
			obstacles: [...contradictionObstacle(list, pair), ...missing],
			audited,
		};
	const index = differences.family.findIndex((d) => d.pair === pair);
	const own = differences.family[index];
	const { estimate, variance, degreesOfFreedom } = own;
	const reckoning = reckonedOnIsotherms(
		own,
		differences.joint.criticalValues[index],
	);
	const allowance = soakAllowance(list, pair);
	const alone = differences.intervals[index];
	const tests = differences.oneSided[index];
	const interval = wider(alone, allowance);
	const oneSided = wider(tests, allowance);
	const strict = rule.sameness === "interval";
	const widest = (byInterval: boolean) => ({
		interval,
		within: byInterval ? interval : oneSided,
	});
	const unlike = unlikeness(list, pair);
	const obstaclesTo = (
		word: VerdictWord,
		found: readonly Audited[],
	): Obstacle[] => [
		...unlike,
		...demandObstacles(word, list, pair),
		...conditionObstacle(word, list, pair, found),
	];
	const said = (
		byInterval: boolean,
	): Pick<Judgement, "numbersSay" | "obstacles" | "word"> => {
		const words = [
			widest(byInterval),
			{ interval: alone, within: byInterval ? alone : tests },
		].map((j) => wordFor(j.interval, rule, j.within));
		const numbersSay = firstTold(words);
		const obstacles = [
			...obstaclesTo(numbersSay, audited),
			...(words[0] === numbersSay
				? []
				: [allowanceObstacle(numbersSay, pair, allowance)]),
		];
		const word = obstacles.length > 0 ? "cannot tell" : numbersSay;
		return { numbersSay, obstacles, word };
	};
	const { numbersSay, obstacles, word } = said(strict);
	return {
		pair,
		difference: {
			is: "interval",
			estimate,
			interval,
			oneSided,
			errors: { variance, degreesOfFreedom },
			reckoned: {
				is: "interval",
				estimate: reckoning,
				low: reckoning,
				high: reckoning,
			},
			index,
		},
		allowance,
		numbersSay,
		word,
		otherwise: said(!strict).word,
		margin: rule.margin,
		ground: {
			claim: rule.claim,
			judged: [widest(strict)],
			provable: "any",
			forbidden: forbiddenWords(audit, obstaclesTo),
		},
		exceedsMargin: word !== "cannot tell" && liesBeyond(interval, rule.margin),
		obstacles,
		audited,
		residues: { is: "unknown" },
	};
}
