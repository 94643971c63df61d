import type { Deviation } from "../bench";
import {
	exact,
	input,
	type Problem,
	problem,
	type Quantity,
	stated,
	throwProblems,
} from "../quantity";
import type { FlaskUptake } from "../uptake";
import { portionsOf } from "./deviating";
import { type Differences, differencesOf } from "./differences";
import { groupSummaries } from "./group-summaries";
import { adjustedPs } from "./joint";
import { type Judgement, judge } from "./judgement";
import { methodSentences } from "./method-sentences";
import { type Observations, observationsOf } from "./observations";
import { type Pair, pairsOf } from "./pairs";
import { replicatesFor } from "./replicates";
import { type Footing, footingOf } from "./scope";
import type { Telling } from "./sentences";
import { type Spread, spreadOf } from "./spread";
import { toldVerdict } from "./told-verdict";
import type { Comparison, TreatmentVerdict } from "./verdict";

export interface CompareOptions {
	/** Smallest difference in uptake that would matter, set before looking at the data. */
	readonly margin: Quantity<"uptake">;
	/** What went wrong on the bench; default none. */
	readonly deviations?: readonly Deviation[];
	/** Chance of a false "higher" or "lower" in the whole family of verdicts; default 0.05 (95 % intervals). */
	readonly alpha?: number;
	/** Spread between units from experience, for planning where the trial itself shows none. */
	readonly statedSpread?: Quantity<"uptake">;
}

/** The smallest difference that would matter, in mg of iodine per g of char: an exact number, set by the experimenter. */
export function marginOf(mgPerGram: number): Quantity<"uptake"> {
	return input("uptake", mgPerGram, "mg/g", exact, {
		symbol: "margin",
		meaning: "smallest difference that would matter",
		source: stated("set by the experimenter before looking at the results"),
	});
}

/** In mg/g, and the chance of a false word. */
export interface Settings {
	readonly margin: number;
	readonly alpha: number;
}

/** One way of handling the deviations, judged. */
interface Reading {
	readonly observations: Observations;
	readonly footing: Footing;
	readonly spread: Spread;
	readonly differences: Differences;
	readonly judgements: readonly Judgement[];
}

function read(
	uptakes: readonly FlaskUptake[],
	pairs: readonly Pair[],
	{ margin, alpha }: Settings,
): Reading {
	const observations = observationsOf(uptakes);
	const { list } = observations;
	const footing = footingOf(list);
	const spread = spreadOf(footing.model, observations);
	const differences = differencesOf(
		pairs,
		observations,
		footing,
		spread,
		alpha,
	);
	const judgements = pairs.map((pair) =>
		judge(
			pair,
			differences.byTreatment.get(pair.treatment) ?? {
				is: "missing",
				why: "no control",
			},
			list,
			footing.level,
			margin,
		),
	);
	return { observations, footing, spread, differences, judgements };
}

export function optionProblems(
	uptakes: readonly FlaskUptake[],
	{ margin, alpha }: Settings,
): Problem[] {
	const problems: Problem[] = [];
	if (uptakes.length === 0)
		problems.push(
			problem(
				"nothing-to-compare",
				{},
				"no char flasks",
				"uptakes of at least one treatment and its control",
				"Add the flasks with char to the bench sheet.",
			),
		);
	if (!(margin > 0))
		problems.push(
			problem(
				"margin-not-positive",
				{},
				`a margin of ${margin} mg/g`,
				"a difference above 0",
				"Say which difference in uptake would matter to you, before you look at the results.",
			),
		);
	if (!(alpha > 0 && alpha < 0.5))
		problems.push(
			problem(
				"alpha-out-of-range",
				{},
				`an error rate (alpha) of ${alpha}`,
				"a number above 0 and below 0.5",
				"Use 0.05 for 95 % intervals.",
			),
		);
	return problems;
}

function unitsIn({ footing }: Reading, treatment: string): number {
	return footing.model.units.filter((u) => u.treatment === treatment).length;
}

/**
 * Treatments against their controls: a verdict of four words for each, with simultaneous intervals (Dunnett's kind, for any correlation), the rules of comparability, and the same
 * with and without what deviations touched.
 *
 * @throws ProblemError for input that cannot be used at all (no flasks, no treatment, a control that is not there, a margin that is not above 0); all problems at once
 */
export function compareTreatments(
	uptakes: readonly FlaskUptake[],
	options: CompareOptions,
): Comparison {
	const settings: Settings = {
		margin: options.margin.in("mg/g"),
		alpha: options.alpha ?? 0.05,
	};
	const { treatments, pairs, problems } = pairsOf(uptakes);
	throwProblems([...optionProblems(uptakes, settings), ...problems]);

	const portions = portionsOf(uptakes, options.deviations ?? []);
	const main = read(portions.main, pairs, settings);
	const as = (flasks: readonly FlaskUptake[]): Reading =>
		flasks.length === portions.main.length
			? main
			: read(flasks, pairs, settings);
	const kept = as(uptakes);
	const leftOut = as(portions.leftOut);

	const ground = { ...main, ...settings, portions };
	const replicates = replicatesFor(main.judgements, {
		...ground,
		statedSpread: options.statedSpread?.in("mg/g") ?? 0,
	});
	const { joint, family } = main.differences;
	const ps = adjustedPs(
		joint,
		family.map((f) => f.estimate / Math.sqrt(f.errors.variance)),
	);
	const verdicts = main.judgements.map((judgement, i): TreatmentVerdict => {
		const { pair } = judgement;
		const telling: Telling = {
			judgement,
			...settings,
			scope: main.footing.scope,
			place: "",
			replicates: replicates[i],
			list: main.observations.list,
			treatedUnits: unitsIn(main, pair.treatment),
			controlUnits: unitsIn(main, pair.control),
			kept: kept.judgements[i].word,
			leftOut: leftOut.judgements[i].word,
			deviating: portions.flasks,
			happened: portions.happened,
		};
		return toldVerdict(telling, {
			degreesOfFreedom: joint.degreesOfFreedom,
			adjustedPs: ps,
			reasons: [],
			comparableDose:
				judgement.obstacles.find((o) => o.comparableDose !== "")
					?.comparableDose ?? "",
		});
	});
	return {
		margin: options.margin,
		scope: main.footing.scope,
		groups: groupSummaries(
			treatments,
			main.observations,
			main.footing,
			main.spread,
			settings.alpha,
		),
		verdicts,
		method: methodSentences(ground),
		degreesOfFreedom: main.spread.degreesOfFreedom,
		pooledDeviation: main.spread.deviation,
	};
}
