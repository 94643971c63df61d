import type { Trial } from "../bench";
import { freundlich, type Isotherm, langmuir, sips } from "../isotherms";
import {
	type Problem,
	problem,
	type Quantity,
	quoted,
	throwProblems,
} from "../quantity";
import type { FlaskUptake } from "../uptake";
import { audit } from "./audit";
import { type Fitter, fitter } from "./curve-estimate";
import { withDecisions } from "./decisions";
import { finite } from "./finite";
import { adjustedPs, simultaneousOf } from "./joint";
import type { Judgement } from "./judgement";
import { marginFor } from "./margin-for";
import { type Observations, observationsOf } from "./observations";
import { type Pair, pairsOf } from "./pairs";
import { deviationsOf, inEachWay, type Portions, type Ways } from "./portions";
import {
	type CurveDifferences,
	curveDifference,
	curveDifferences,
} from "./residue-differences";
import { curveGroups, curveUptakes } from "./residue-groups";
import { judgeAtResidue, noCommonDay } from "./residue-judgement";
import { replicatesAtResidue } from "./residue-planning";
import {
	type CompareOptions,
	comparisonProblems,
	type Settings,
	settingsOf,
} from "./settings";
import { residueProblems, residueText } from "./stated-residue";
import { type TreatmentCurves, treatmentCurves } from "./treatment-curves";
import type {
	Comparison,
	GroupSummary,
	StatedBy,
	TreatmentVerdict,
} from "./verdict";
import { verdictsOf } from "./verdict-of";
import type { Rule } from "./word";

interface ResidueSettings extends Settings {
	readonly residue: number;
	readonly isotherms: readonly Isotherm[];
}

/** One way of handling the deviations, judged. */
interface Reading extends TreatmentCurves {
	readonly observations: Observations;
	readonly differences: CurveDifferences;
	readonly groups: readonly GroupSummary[];
	readonly judgements: readonly Judgement[];
}

function read(
	trial: Trial,
	uptakes: readonly FlaskUptake[],
	treatments: readonly string[],
	pairs: readonly Pair[],
	{
		margin,
		claim,
		confidence,
		sameness,
		spread,
		residue,
		isotherms,
	}: ResidueSettings,
	fitOf: Fitter,
): Reading {
	const observations = observationsOf(uptakes);
	const found = treatmentCurves(
		treatments,
		uptakes,
		isotherms,
		{ residue, spread },
		fitOf,
	);
	const { curves, soakSpread } = found;
	const differences = curveDifferences(
		pairs.flatMap((pair) => {
			const treated = curves.get(pair.treatment);
			const control = curves.get(pair.control);
			if (treated?.is !== "estimate" || control?.is !== "estimate") return [];
			if (noCommonDay(observations.list, pair)) return [];
			const d = curveDifference(
				pair,
				treated.estimate,
				control.estimate,
				soakSpread,
			);
			// What rounding leaves of a perfect fit is no scatter.
			const rounding = 1e-9 * Math.max(d.treated.uptake, d.control.uptake);
			return Math.sqrt(d.variance) > rounding ? [d] : [];
		}),
		confidence,
	);
	const groups = curveGroups(
		treatments,
		curves,
		observations,
		residue,
		confidence,
	);
	const judged = {
		curves,
		differences,
		list: observations.list,
		ruleFor: ({ control }: Pair): Rule => ({
			margin: marginFor(margin, groups, control, residue),
			claim,
			sameness,
		}),
		auditFor: (pair: Pair) =>
			audit(pair, observations.list, { trial, measuringErrorOnly: false }),
	};
	return {
		observations,
		...found,
		differences,
		groups,
		judgements: pairs.map((pair) => judgeAtResidue(pair, judged)),
	};
}

/** Names that a person would take for one and a computer for two. */
function alikeNames(treatments: readonly string[]): Problem[] {
	const plain = (t: string): string =>
		t.trim().toLowerCase().replace(/\s+/g, " ");
	return treatments.flatMap((t, i) => {
		const twin = treatments.slice(0, i).find((s) => plain(s) === plain(t));
		return twin === undefined
			? []
			: [
					problem(
						"treatments-alike",
						{ column: "treatment" },
						`the treatments ${quoted(twin)} and ${quoted(t)}`,
						"one way of writing each treatment",
						"Write the same name in all its rows if they are one treatment, and names that differ by more than capitals and spaces if they are two.",
					),
				];
	});
}

function isothermProblems(
	isotherms: readonly Isotherm[],
	residue: Quantity<"massConcentration">,
): Problem[] {
	if (isotherms.length === 0)
		return [
			problem(
				"no-isotherm",
				{ column: "isotherms" },
				"an empty list of isotherms",
				"one or more",
				"Leave the option out for Langmuir, Freundlich and Sips, or give [isotherms.langmuir].",
			),
		];
	const value = residue.in("mg/L");
	return isotherms
		.filter((i) => !(value < i.highestConcentration))
		.map((i) =>
			problem(
				"residue-beyond-isotherm",
				{ column: "isotherms" },
				`${i.name} at ${residueText(value)}`,
				`a residue below ${residueText(i.highestConcentration)}, as far as this isotherm is defined`,
				"Leave this isotherm out, or choose a lower residue.",
			),
		);
}

type AtResidueOptions = CompareOptions & {
	readonly residue: Quantity<"massConcentration">;
	readonly statedBy?: StatedBy;
};

/** Who is compared with whom and how. @throws ProblemError for all that forbids it */
function settled(
	portions: Portions,
	options: AtResidueOptions,
): {
	readonly treatments: readonly string[];
	readonly pairs: readonly Pair[];
	readonly settings: ResidueSettings;
} {
	const isotherms = options.isotherms ?? [langmuir, freundlich, sips];
	const { treatments, pairs, problems } = pairsOf(portions.every);
	const wrongResidue = residueProblems(options.residue);
	const own = settingsOf(options);
	throwProblems([
		...comparisonProblems(portions.every, { margin: own.margin }),
		...wrongResidue,
		...(wrongResidue.length === 0
			? isothermProblems(isotherms, options.residue)
			: []),
		...problems,
		...alikeNames(treatments),
	]);
	const residue = options.residue.in("mg/L");
	return { treatments, pairs, settings: { ...own, residue, isotherms } };
}

function verdictsOnIsotherms(
	ways: Ways<Reading>,
	settings: ResidueSettings,
): TreatmentVerdict[] {
	const { observations, differences, judgements } = ways.main;
	const ground = { ...settings, ...ways.main };
	return verdictsOf(
		ways,
		(treatment) => soaksOf(observations, treatment),
		judgements.map((judgement) => replicatesAtResidue(judgement, ground)),
		adjustedPs(
			differences.joint,
			differences.family.map((d) => d.estimate / Math.sqrt(d.variance)),
		),
	);
}

function placeOf(
	{ choice, curves }: Reading,
	{ residue, statedBy = "the experimenter" }: AtResidueOptions,
): Comparison["at"] {
	return {
		is: "isotherms",
		residue,
		statedBy,
		isotherm: choice.isotherm,
		isothermWeights: choice.tried.map((t) => ({
			name: t.isotherm.name,
			weight: t.weight,
		})),
		fits: [...curves.values()].flatMap((c) =>
			c.is === "estimate" ? c.estimate.fits : [],
		),
	};
}

/**
 * Treatments against their controls at one stated residual concentration, on an isotherm each. A treatment whose flasks are too few for an isotherm, or did not reach the residue, gets "cannot tell" with the dose
 * that would make it comparable.
 *
 * @throws ProblemError for input that cannot be used at all (no flasks, no treatment, a residue or margin that is not above 0 or has the wrong unit); all problems at once
 */
export function compareOnIsotherms(
	portions: Portions,
	options: AtResidueOptions,
): Comparison {
	const { treatments, pairs, settings } = settled(portions, options);
	const fitOf = fitter();
	const ways = inEachWay(portions, (flasks) =>
		read(portions.trial, flasks, treatments, pairs, settings, fitOf),
	);
	const { main } = ways;
	const { margin, claim, confidence, sameness } = settings;
	const compared: Omit<Comparison, "decisions"> = {
		trial: portions.trial,
		flasks: portions.every,
		compared: main.observations.list,
		deviations: deviationsOf(portions),
		probe: portions.trial.probe.name,
		confidence,
		at: placeOf(main, options),
		margin,
		claim,
		sameness,
		scope: main.scope,
		groups: main.groups,
		verdicts: verdictsOnIsotherms(ways, settings),
		method: {
			is: "isotherms",
			choice: main.choice,
			bySoak: main.bySoak,
			days: main.days,
			spread: settings.spread,
			curves: curveUptakes(main.curves, confidence),
			simultaneous: simultaneousOf(main.differences),
		},
		// The fewest of any difference.
		degreesOfFreedom: finite(
			Math.min(
				Number.POSITIVE_INFINITY,
				...main.differences.joint.degreesOfFreedom,
			),
		),
		pooledDeviation: 0,
	};
	return withDecisions(compared, options);
}

function soaksOf({ list }: Observations, treatment: string): number {
	return new Set(
		list
			.filter((o) => o.treatment === treatment)
			.map((o) => o.flask.flask.soak),
	).size;
}
