import type { Trial } from "../bench";
import { grouped, throwProblems } from "../quantity";
import type { FlaskUptake } from "../uptake";
import { audit } from "./audit";
import { carriableOf } from "./carriable";
import { atMiddle, carriedTo } from "./carry";
import { commonResidue } from "./common-residue";
import { withDecisions } from "./decisions";
import {
	type Differences,
	differencesOf,
	type Ground,
	type PairDifference,
} from "./differences";
import { groupSummaries } from "./group-summaries";
import { adjustedPs, simultaneousOf } from "./joint";
import { type Judgement, judge } from "./judgement";
import { marginFor } from "./margin-for";
import { slopesOf } from "./measured-slope";
import { type DrawnFlask, drawnFlasks } from "./observations";
import {
	type Carrier,
	groundOf,
	type OverSlopes,
	overSlopes,
	usedBy,
} from "./over-slopes";
import { type Pair, pairsOf } from "./pairs";
import { deviationsOf, inEachWay, type Portions, type Ways } from "./portions";
import { replicatesFor } from "./replicates";
import {
	type CompareOptions,
	comparisonProblems,
	type Settings,
	settingsOf,
} from "./settings";
import { middleOf } from "./slope";
import { slopeRange } from "./slope-range";
import { residueOfTrial, residueProblems } from "./stated-residue";
import { unitModelOf } from "./unit-model";
import type {
	Comparison,
	ComparisonMethod,
	GroupSummary,
	TreatmentVerdict,
} from "./verdict";
import { verdictsOf } from "./verdict-of";

/** One way of handling the deviations, judged. */
interface Reading extends Ground {
	readonly carrier: Carrier;
	readonly differences: Differences;
	readonly overSlopes: ReadonlyMap<string, OverSlopes>;
	readonly groups: readonly GroupSummary[];
	readonly judgements: readonly Judgement[];
}

function read(
	trial: Trial,
	uptakes: readonly FlaskUptake[],
	treatments: readonly string[],
	pairs: readonly Pair[],
	at: number,
	settings: Settings,
): Reading {
	const { margin, claim, sameness, confidence } = settings;
	const carriable = carriableOf(uptakes, at);
	const slopes = slopesOf(carriable, at, confidence, settings.slopes);
	const taken = atMiddle(slopes);
	const observations = carriedTo(carriable, at, taken);
	const unitModel = unitModelOf(observations.list);
	const carrier: Carrier = {
		carriable,
		at,
		slopes,
		spread: settings.spread,
		used: usedBy(slopes, unitModel.level),
	};
	const ground = groundOf(carrier, observations, unitModel);
	const differences = differencesOf(pairs, ground, confidence);
	const middleOf = ({ treatment }: Pair): PairDifference =>
		differences.byTreatment.get(treatment) ?? {
			is: "missing",
			why: "no control",
		};
	const whatever = new Map(
		pairs.map((pair) => {
			const middle = middleOf(pair);
			const criticalValue =
				middle.is === "missing"
					? 0
					: differences.joint.criticalValues[middle.index];
			return [
				pair.treatment,
				overSlopes(carrier, pair, middle, taken, unitModel, {
					criticalValue,
					confidence,
				}),
			];
		}),
	);
	const groups = groupSummaries(treatments, ground, confidence, at);
	const judgements = pairs.map((pair) =>
		judge(pair, {
			middle: middleOf(pair),
			difference: (whatever.get(pair.treatment) as OverSlopes).difference,
			list: ground.observations.list,
			carrier,
			level: unitModel.level,
			rule: {
				margin: marginFor(margin, groups, pair.control, at),
				claim,
				sameness,
			},
			audit: audit(pair, ground.observations.list, {
				trial,
				measuringErrorOnly: unitModel.scope === "measuring error only",
			}),
		}),
	);
	return {
		...ground,
		carrier,
		differences,
		overSlopes: whatever,
		groups,
		judgements,
	};
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
		is: "carried",
		unit: unitModel.level,
		units: new Map(treatments.map((t) => [t, unitsIn(main, t)])),
		days: unitModel.model.days,
		spread,
		simultaneous: simultaneousOf(differences),
	};
}

/** Every flask as it stands at the residue of the comparison, those too that a deviation leaves out. */
function drawn(
	every: readonly FlaskUptake[],
	{ carrier, observations }: Reading,
): readonly DrawnFlask[] {
	const own = drawnFlasks(observations);
	const compared = new Map(own.map((o) => [o.name, o]));
	if (every.every((u) => compared.has(u.flask.name))) return own;
	const carriable = carriableOf(every, carrier.at);
	// The errors of a slope are those of the flasks that it was measured on; they have no place in the bar of a single flask.
	const taken = new Map(
		[...grouped(carriable.list, (f) => f.treatment)].map(([t, own]) => {
			const value = middleOf(carrier.slopes.get(t) ?? slopeRange(own));
			const slope = { is: "range", low: value, high: value } as const;
			return [t, { slope, near: value, beyond: value }];
		}),
	);
	return drawnFlasks(carriedTo(carriable, carrier.at, taken)).map(
		(o) => compared.get(o.name) ?? o,
	);
}

function verdictsCarried(
	ways: Ways<Reading>,
	settings: Settings,
	options: CompareOptions,
): TreatmentVerdict[] {
	const { main } = ways;
	const { joint, family } = main.differences;
	return verdictsOf(
		ways,
		(treatment) => unitsIn(main, treatment),
		replicatesFor(main.judgements, {
			...main,
			confidence: settings.confidence,
			rule: settings.spread,
			statedSpread: options.statedSpread?.in("mg/g") ?? 0,
		}),
		adjustedPs(
			joint,
			family.map(
				({ pair }) =>
					(main.overSlopes.get(pair.treatment) as OverSlopes).statistic,
			),
		),
	);
}

/**
 * Treatments against their controls at one residue: each flask is carried there along a slope that doses by design have measured, or along all that the probe may have.
 *
 * @throws ProblemError for input that cannot be used at all (no flasks, no treatment, a control that is not there, a margin or a residue that is not above 0); all problems at once
 */
export function compareCarried(
	portions: Portions,
	options: CompareOptions,
): Comparison {
	const settings = settingsOf(options);
	const { treatments, pairs, problems } = pairsOf(portions.every);
	throwProblems([
		...comparisonProblems(portions.every, settings),
		...(options.residue === undefined ? [] : residueProblems(options.residue)),
		...problems,
	]);
	const residue =
		options.residue ?? residueOfTrial(commonResidue(portions.main));
	const at = residue.in("mg/L");

	const ways = inEachWay(portions, (flasks) =>
		read(portions.trial, flasks, treatments, pairs, at, settings),
	);
	const { main } = ways;
	const compared: Omit<Comparison, "decisions"> = {
		trial: portions.trial,
		flasks: portions.every,
		compared: main.observations.list,
		deviations: deviationsOf(portions),
		probe: portions.trial.probe.name,
		confidence: settings.confidence,
		at: {
			is: "carried",
			residue,
			statedBy: options.residue === undefined ? "nobody" : "the experimenter",
			slopes: main.carrier.slopes,
			flasks: drawn(portions.every, main),
		},
		margin: settings.margin,
		claim: settings.claim,
		sameness: settings.sameness,
		scope: main.unitModel.scope,
		groups: main.groups,
		verdicts: verdictsCarried(ways, settings, options),
		method: methodOf(main, treatments),
		degreesOfFreedom: main.spread.degreesOfFreedom,
		pooledDeviation: main.spread.deviation,
	};
	return withDecisions(compared, options);
}
