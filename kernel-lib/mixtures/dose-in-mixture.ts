import { doseForTarget, fromFits } from "../dose";
import { inDigits, roughly } from "../isotherms";
import {
	anyNumberOption,
	listed,
	quoted,
	requireOptions,
	type Table,
	textOption,
	withTable,
	wordOption,
} from "../quantity";
import { bracketedRoot } from "../stats";
import type { UntoldDose } from "./mixture-answer";
import { type MixtureUptakes, residuesInMixture } from "./mixture-uptakes";
import { mixtureSentence, mixtureTable, mixtureTitle } from "./mixture-words";
import { afterDose, singles } from "./share";
import {
	checkedSolutes,
	type Rule,
	type Single,
	type Solute,
	type WeighedSolute,
} from "./single";
import { besideNames, placeOf } from "./which-solute";

/** Molar capacities that differ by more make the competitive form inconsistent. Our decision. */
const capacitiesWithin = 0.1;

const wantedRules = {
	solute: textOption,
	target: anyNumberOption("a number in mg/L"),
	beyond: wordOption("refuse", "mark"),
};

/** A dose for one solute of a mixture, beside the dose that its isotherm alone would have promised. */
export type MixtureDose = UntoldDose & {
	/** In one plain sentence, for the title of a page. */
	readonly title: string;
	/** The same with what the interval covers. */
	readonly sentence: string;
	/** The dose alone and the dose in the mixture, a row each. */
	readonly table: Table;
};

/**
 * The dose that takes one solute of a mixture to a target in one stage. Its interval carries the errors of all isotherms; it does not cover the rule itself, which only flasks with the mixture can test. Shown as a table: alone, and in the mixture.
 *
 * @param wanted name of the solute and its target, mg/L; beyond as for a single solute
 * @throws as `uptakesInMixture`, and for a solute that is not there
 * @example
 * const points = isotherms.plainPoints("oak char", [10, 30, 90, 190], [50, 75, 90, 95]);
 * const fit = isotherms.fitIsotherm(isotherms.langmuir, points);
 * // two solutes that behave alike are one: 100 mg/L together, of which 10 are left
 * const solutes = ["first", "second"].map((name) => ({ name, fit, molarMass: 100, start: 50 }));
 * const answer = mixtures.doseInMixture("competitive Langmuir", solutes, { solute: "first", target: 5, beyond: "mark" });
 * answer.is === "dose" && answer.dose.value // => 1.8
 */
export function doseInMixture(
	rule: Rule,
	given: readonly Solute[],
	wanted: {
		readonly solute: string;
		readonly target: number;
		readonly beyond?: "refuse" | "mark";
	},
): MixtureDose {
	const answer = doseOf(rule, given, wanted);
	return withTable(
		{
			...answer,
			title: mixtureTitle(answer),
			sentence: mixtureSentence(answer),
		},
		mixtureTable,
	);
}

function doseOf(
	rule: Rule,
	given: readonly Solute[],
	wanted: {
		readonly solute: string;
		readonly target: number;
		readonly beyond?: "refuse" | "mark";
	},
): UntoldDose {
	requireOptions(wanted, wantedRules, "doseInMixture", ["solute", "target"]);
	const solutes = checkedSolutes(rule, given);
	const k = placeOf(solutes, wanted.solute);
	const { fit, start } = solutes[k];
	const alone = doseForTarget(fit, {
		start,
		target: wanted.target,
		beyond: wanted.beyond ?? "refuse",
	});
	const head = { rule, solute: wanted.solute, start, target: wanted.target };
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
			because: `beside ${listed(besideNames(solutes, k).map(quoted))} no dose up to a million times that of ${quoted(wanted.solute)} alone reaches ${inDigits(wanted.target, 3)} mg/L`,
			wouldTell: `Flasks of the mixture with ${roughly(2 * alone.dose.value)} and ${roughly(5 * alone.dose.value)} g of char per litre would show how far it goes.`,
		};
	const left = residuesInMixture(rule, solutes, dose.value);
	return {
		is: "dose",
		...head,
		beside: besideNames(solutes, k),
		dose,
		alone: alone.dose,
		times: dose.value / alone.dose.value,
		left,
		cautions: cautionsOn(rule, solutes, left),
	};
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
			afterDose(rule, given, starts, Math.exp(logDose)).residues[k] / target,
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
	solutes: readonly WeighedSolute[],
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
					`The isotherm of ${listed(beyond.map(quoted))} is leaned on beyond the residues that were measured.`,
				]
			: []),
	];
}
