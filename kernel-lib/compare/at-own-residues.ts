import { throwProblems } from "../quantity";
import type { FlaskUptake } from "../uptake";
import { type Differences, differencesOf } from "./differences";
import { groupSummaries } from "./group-summaries";
import { adjustedPs } from "./joint";
import { type Judgement, judge } from "./judgement";
import { methodSentences } from "./method-sentences";
import { type Observations, observationsOf } from "./observations";
import { type Pair, pairsOf } from "./pairs";
import { alike, type Portions } from "./portions";
import { replicatesFor } from "./replicates";
import { type Footing, footingOf } from "./scope";
import type { Telling } from "./sentences";
import {
	type CompareOptions,
	comparisonProblems,
	type Settings,
	settingsOf,
} from "./settings";
import { type Spread, spreadOf } from "./spread";
import { toldVerdict } from "./told-verdict";
import type { Comparison, TreatmentVerdict } from "./verdict";

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

function unitsIn({ footing }: Reading, treatment: string): number {
	return footing.model.units.filter((u) => u.treatment === treatment).length;
}

/**
 * Treatments against their controls at the residues that their flasks happen to have.
 *
 * @throws ProblemError for input that cannot be used at all (no flasks, no treatment, a control that is not there, a margin that is not above 0); all problems at once
 */
export function compareAtOwnResidues(
	portions: Portions,
	options: CompareOptions,
): Comparison {
	const settings = settingsOf(options);
	const { treatments, pairs, problems } = pairsOf(portions.every);
	throwProblems([...comparisonProblems(portions.every, settings), ...problems]);

	const main = read(portions.main, pairs, settings);
	const as = (flasks: readonly FlaskUptake[]): Reading =>
		alike(flasks, portions.main) ? main : read(flasks, pairs, settings);
	const kept = as(portions.kept);
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
		trial: portions.trial,
		flasks: portions.every,
		probe: portions.trial.probe.name,
		confidence: options.confidence ?? 0.95,
		at: { is: "own residues" },
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
		method: [...portions.trial.setAside, ...methodSentences(ground)],
		degreesOfFreedom: main.spread.degreesOfFreedom,
		pooledDeviation: main.spread.deviation,
	};
}
