import { throwProblems } from "../quantity";
import type { FlaskUptake } from "../uptake";
import { type Differences, differencesOf } from "./differences";
import { groupSummaries } from "./group-summaries";
import { adjustedPs, simultaneousOf } from "./joint";
import { type Judgement, judge } from "./judgement";
import { type Observations, observationsOf } from "./observations";
import { type Pair, pairsOf } from "./pairs";
import { alike, deviationsOf, type Portions } from "./portions";
import { replicatesFor } from "./replicates";
import {
	type CompareOptions,
	comparisonProblems,
	type Settings,
	settingsOf,
} from "./settings";
import { type Spread, spreadOf } from "./spread";
import { type UnitModel, unitModelOf } from "./unit-model";
import type { Comparison, ComparisonMethod, TreatmentVerdict } from "./verdict";
import { verdictOf } from "./verdict-of";

/** One way of handling the deviations, judged. */
interface Reading {
	readonly observations: Observations;
	readonly unitModel: UnitModel;
	readonly spread: Spread;
	readonly differences: Differences;
	readonly judgements: readonly Judgement[];
}

function read(
	uptakes: readonly FlaskUptake[],
	pairs: readonly Pair[],
	{ margin, confidence }: Settings,
): Reading {
	const observations = observationsOf(uptakes);
	const { list } = observations;
	const unitModel = unitModelOf(list);
	const spread = spreadOf(unitModel.model, observations);
	const differences = differencesOf(
		pairs,
		observations,
		unitModel,
		spread,
		confidence,
	);
	const judgements = pairs.map((pair) =>
		judge(
			pair,
			differences.byTreatment.get(pair.treatment) ?? {
				is: "missing",
				why: "no control",
			},
			list,
			unitModel.level,
			margin,
		),
	);
	return { observations, unitModel, spread, differences, judgements };
}

function unitsIn({ unitModel }: Reading, treatment: string): number {
	return unitModel.model.units.filter((u) => u.treatment === treatment).length;
}

function methodOf(
	main: Reading,
	treatments: readonly string[],
): ComparisonMethod {
	const { unitModel, spread, differences } = main;
	return {
		is: "own residues",
		unit: unitModel.level,
		units: new Map(treatments.map((t) => [t, unitsIn(main, t)])),
		days: unitModel.model.days,
		spread,
		simultaneous: simultaneousOf(differences),
	};
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

	const replicates = replicatesFor(main.judgements, {
		...main,
		...settings,
		statedSpread: options.statedSpread?.in("mg/g") ?? 0,
	});
	const { joint, family } = main.differences;
	const ps = adjustedPs(
		joint,
		family.map((f) => f.estimate / Math.sqrt(f.errors.variance)),
	);
	const verdicts = main.judgements.map((judgement, i): TreatmentVerdict => {
		const { pair } = judgement;
		return verdictOf(judgement, {
			list: main.observations.list,
			units: {
				treated: unitsIn(main, pair.treatment),
				control: unitsIn(main, pair.control),
			},
			replicates: replicates[i],
			kept: kept.judgements[i].word,
			leftOut: leftOut.judgements[i].word,
			degreesOfFreedom: joint.degreesOfFreedom,
			adjustedPs: ps,
		});
	});
	return {
		trial: portions.trial,
		flasks: portions.every,
		compared: main.observations.list,
		deviations: deviationsOf(portions),
		probe: portions.trial.probe.name,
		confidence: settings.confidence,
		at: { is: "own residues" },
		margin: options.margin,
		scope: main.unitModel.scope,
		groups: groupSummaries(
			treatments,
			main.observations,
			main.unitModel,
			main.spread,
			settings.confidence,
		),
		verdicts,
		method: methodOf(main, treatments),
		degreesOfFreedom: main.spread.degreesOfFreedom,
		pooledDeviation: main.spread.deviation,
	};
}
