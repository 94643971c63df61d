import {
	type DoseAnswer,
	doseForTarget,
	type FromFits,
	fromFits,
	type RemovalCurve,
	removalCurve,
	valueTexts,
} from "../dose";
import { inDigits, roughly } from "../isotherms";
import { type Table, table } from "../quantity";
import { bracketedRoot } from "../stats";
import {
	competitiveLangmuir,
	residuesInCompetition,
} from "./competitive-langmuir";
import {
	idealAdsorbedSolution,
	residuesInIdealSolution,
	type Shared,
} from "./ideal-adsorbed-solution";
import { checkSolutes, type Rule, type Single, type Solute } from "./single";

/** Molar capacities that differ by more make the competitive form inconsistent. Our decision. */
const capacitiesWithin = 0.1;

function singles(
	solutes: readonly Solute[],
	thetas: readonly Float64Array[] = solutes.map((s) => s.fit.theta),
): Single[] {
	return solutes.map((s, i) => ({
		isotherm: s.fit.isotherm,
		theta: thetas[i],
		molarMass: s.molarMass,
	}));
}

function shareOut(
	rule: Rule,
	given: readonly Single[],
	starts: readonly number[],
	dose: number,
): Shared {
	return rule === "competitive Langmuir"
		? residuesInCompetition(given, starts, dose)
		: residuesInIdealSolution(given, starts, dose);
}

/** Uptakes in a mixture beside what each solute would show alone at the same residue. */
export interface MixtureUptakes {
	readonly rule: Rule;
	readonly solutes: readonly {
		readonly name: string;
		/** mg/L. */
		readonly residue: number;
		/** mg/g. */
		readonly uptake: number;
		readonly uptakeAlone: number;
		/** True where its own isotherm is leaned on beyond the residues that were measured. */
		readonly extrapolating: boolean;
	}[];
}

/**
 * What the char holds of each solute at given residues of all of them (mg/L, above 0, in the order of the solutes).
 *
 * @throws ProblemError for solutes that make no mixture; RangeError for an isotherm without a spreading pressure
 */
export function uptakesInMixture(
	rule: Rule,
	solutes: readonly Solute[],
	residues: readonly number[],
): MixtureUptakes {
	checkSolutes(rule, solutes);
	const given = singles(solutes);
	const found =
		rule === "competitive Langmuir"
			? competitiveLangmuir(given, residues)
			: idealAdsorbedSolution(given, residues);
	return mixtureUptakes(rule, solutes, found);
}

function mixtureUptakes(
	rule: Rule,
	solutes: readonly Solute[],
	found: Shared,
): MixtureUptakes {
	return {
		rule,
		solutes: solutes.map((s, i) => {
			const out = new Float64Array(1);
			const { model } = s.fit.isotherm;
			model.evaluate(
				s.fit.theta,
				model.prepare(Float64Array.of(found.residues[i])),
				out,
			);
			return {
				name: s.name,
				residue: found.residues[i],
				uptake: found.uptakes[i],
				uptakeAlone: out[0],
				extrapolating:
					found.alone[i] > s.fit.range.high ||
					found.residues[i] < s.fit.range.low,
			};
		}),
	};
}

/** What a dose (g/L) leaves of each solute, and what the char then holds. @throws as `uptakesInMixture` */
export function residuesInMixture(
	rule: Rule,
	solutes: readonly Solute[],
	dose: number,
): MixtureUptakes {
	checkSolutes(rule, solutes);
	if (!(dose > 0 && Number.isFinite(dose)))
		throw new RangeError(
			`A dose of char in g/L must be above zero; found ${dose}.`,
		);
	return mixtureUptakes(
		rule,
		solutes,
		shareOut(
			rule,
			singles(solutes),
			solutes.map((s) => s.start),
			dose,
		),
	);
}

/** A dose for one solute of a mixture, beside the dose that its isotherm alone would have promised. */
export type MixtureDose =
	| {
			readonly is: "dose";
			readonly rule: Rule;
			readonly solute: string;
			readonly beside: readonly string[];
			readonly target: number;
			readonly dose: FromFits;
			readonly alone: FromFits;
			/** How many times the dose alone. */
			readonly times: number;
			readonly left: MixtureUptakes;
			readonly cautions: readonly string[];
	  }
	| {
			readonly is: "no dose";
			readonly rule: Rule;
			readonly solute: string;
			readonly target: number;
			readonly because: string;
			readonly wouldTell: string;
	  };

/**
 * The dose that takes one solute of a mixture to a target in one stage. Its interval carries the errors of all isotherms; it does not cover the rule itself, which only flasks with the mixture can test.
 *
 * @param wanted name of the solute and its target, mg/L; beyond as for a single solute
 * @throws as `uptakesInMixture`, and RangeError for a solute that is not there
 */
export function doseInMixture(
	rule: Rule,
	solutes: readonly Solute[],
	wanted: {
		readonly solute: string;
		readonly target: number;
		readonly beyond?: "refuse" | "mark";
	},
): MixtureDose {
	checkSolutes(rule, solutes);
	const k = placeOf(solutes, wanted.solute);
	const { fit, start } = solutes[k];
	const alone: DoseAnswer = doseForTarget(fit, {
		start,
		target: wanted.target,
		beyond: wanted.beyond ?? "refuse",
	});
	const head = { rule, solute: wanted.solute, target: wanted.target };
	if (alone.is === "no dose")
		return {
			is: "no dose",
			...head,
			because: alone.because,
			wouldTell: alone.wouldTell,
		};
	const starts = solutes.map((s) => s.start);
	const dose = fromFits(
		solutes.map((s) => s.fit),
		"g/L",
		(thetas) =>
			rootDose(
				rule,
				singles(solutes, thetas),
				starts,
				k,
				wanted.target,
				alone.dose.value,
			),
	);
	if (!Number.isFinite(dose.value))
		return {
			is: "no dose",
			...head,
			because: `beside ${besideText(solutes, k)} no dose up to a million times that of ${wanted.solute} alone reaches ${inDigits(wanted.target, 3)} mg/L`,
			wouldTell: `Flasks of the mixture with ${roughly(2 * alone.dose.value)} and ${roughly(5 * alone.dose.value)} g of char per litre would show how far it goes.`,
		};
	const left = residuesInMixture(rule, solutes, dose.value);
	return {
		is: "dose",
		...head,
		beside: solutes.filter((_, i) => i !== k).map((s) => s.name),
		dose,
		alone: alone.dose,
		times: dose.value / alone.dose.value,
		left,
		cautions: cautionsOn(rule, solutes, left),
	};
}

function placeOf(solutes: readonly Solute[], name: string): number {
	const k = solutes.findIndex((s) => s.name === name);
	if (k < 0)
		throw new RangeError(
			`There is no solute "${name}" here; there are ${solutes.map((s) => s.name).join(", ")}.`,
		);
	return k;
}

function besideText(solutes: readonly Solute[], k: number): string {
	return solutes
		.filter((_, i) => i !== k)
		.map((s) => s.name)
		.join(" and ");
}

function rootDose(
	rule: Rule,
	given: readonly Single[],
	starts: readonly number[],
	k: number,
	target: number,
	alone: number,
): number {
	const miss = (logDose: number): number =>
		Math.log(
			shareOut(rule, given, starts, Math.exp(logDose)).residues[k] / target,
		);
	// Competition never helps: the dose alone is too small. A little less, for errors of the parameters.
	const low = Math.log(alone / 4);
	let high = Math.log(alone * 2);
	while (miss(high) > 0) {
		high += Math.log(4);
		if (high > Math.log(alone * 1e6)) return Number.POSITIVE_INFINITY;
	}
	return Math.exp(bracketedRoot(miss, low, high, 1e-13));
}

function cautionsOn(
	rule: Rule,
	solutes: readonly Solute[],
	left: MixtureUptakes,
): string[] {
	const capacities = solutes.map((s) => s.fit.theta[0] / s.molarMass);
	const beyond = left.solutes.filter((s) => s.extrapolating).map((s) => s.name);
	return [
		"Predicted from isotherms of each solute alone; no flask of the mixture is behind it, and the interval does not cover the rule.",
		...(rule === "competitive Langmuir" &&
		Math.max(...capacities) > Math.min(...capacities) * (1 + capacitiesWithin)
			? [
					"The plateaus differ in moles per gram: the competitive form then contradicts itself (both solutes are said to compete for the same sites, of which there are not equally many). The ideal adsorbed solution does not.",
				]
			: []),
		...(beyond.length > 0
			? [
					`The isotherm of ${beyond.join(" and ")} is leaned on beyond the residues that were measured.`,
				]
			: []),
	];
}

/** Removal of one solute against dose in the mixture, and what its isotherm alone would have promised, to be drawn beside it. */
export function mixtureCurves(
	rule: Rule,
	solutes: readonly Solute[],
	solute: string,
	doses?: readonly number[],
): { readonly mixture: RemovalCurve; readonly alone: RemovalCurve } {
	checkSolutes(rule, solutes);
	const k = placeOf(solutes, solute);
	const { fit, start } = solutes[k];
	const alone = removalCurve(fit, {
		start,
		name: `${solute} alone`,
		...(doses === undefined ? {} : { doses }),
	});
	const given = singles(solutes);
	const starts = solutes.map((s) => s.start);
	return {
		alone,
		mixture: {
			kind: "removal curve",
			name: `${solute} beside ${besideText(solutes, k)}`,
			from: "mixture",
			start,
			confidence: fit.confidence,
			at: alone.at.map(({ dose }) => {
				const { residues, alone: leaned } = shareOut(rule, given, starts, dose);
				const unknown = {
					is: "not known" as const,
					because: "no flask of the mixture was measured",
				};
				return {
					dose,
					residue: residues[k],
					removal: 100 * (1 - residues[k] / start),
					low: unknown,
					high: unknown,
					extrapolating: solutes.some(
						(s, i) =>
							leaned[i] > s.fit.range.high || residues[i] < s.fit.range.low,
					),
				};
			}),
		},
	};
}

/** Doses for solutes of mixtures beside those alone. */
export function mixtureTable(...answers: readonly MixtureDose[]): Table {
	return table(
		"Dose in a mixture",
		[
			"solute",
			"beside",
			"rule",
			"target (mg/L)",
			"char (g/L = kg per cubic metre)",
			"from",
			"to",
			"alone it would have been",
			"times",
			"remark",
		],
		answers.map((a) => {
			if (a.is === "no dose")
				return [
					a.solute,
					"",
					a.rule,
					inDigits(a.target, 3),
					"none",
					"",
					"",
					"",
					"",
					`${a.because}. ${a.wouldTell}`,
				];
			const { value, low, high } = valueTexts(a.dose);
			return [
				a.solute,
				a.beside.join(", "),
				a.rule,
				inDigits(a.target, 3),
				value,
				low,
				high,
				valueTexts(a.alone).value,
				inDigits(a.times, 3),
				a.cautions.slice(1).join(" "),
			];
		}),
		[
			"Predicted from isotherms of each solute alone; no flask of the mixture is behind it, and the interval does not cover the rule.",
		],
	);
}
