import { listed, plainNumber } from "../quantity";
import type { IsothermChoice } from "./isotherm-choice";
import {
	demandSentence,
	deviationSentences,
	orderSentence,
} from "./method-sentences";
import type { Observations } from "./observations";
import type { Portions } from "./portions";
import { probeCounted } from "./probe";
import type { CurveDifferences } from "./residue-differences";
import { residueText } from "./stated-residue";
import type { VerdictScope } from "./verdict";
import { capital, flasksNamed, percent, roughly } from "./words";

export interface ResidueMethodGround {
	readonly residue: number;
	readonly choice: IsothermChoice;
	readonly observations: Observations;
	readonly differences: CurveDifferences;
	readonly portions: Portions;
	readonly scope: VerdictScope;
	readonly bySoak: boolean;
	readonly margin: number;
	readonly alpha: number;
}

function choiceSentence({ choice }: ResidueMethodGround): string {
	const { isotherm, tried, how } = choice;
	const names = listed(tried.map((t) => t.isotherm.name));
	switch (how) {
		case "given":
			return `Isotherm: ${isotherm.name} (${isotherm.equation}) for every treatment, set beforehand; no other form was tried, so that an error of the form is not in the intervals.`;
		case "first":
			return `Isotherm: ${isotherm.name} (${isotherm.equation}) for every treatment, the first of the list (${names}): the flasks are too few to choose by, so that an error of the form is not in the intervals.`;
		case "by AICc":
			return `Isotherm: one form for every treatment, so that what it gets wrong it gets wrong alike; by AICc over all of them ${isotherm.name} (${isotherm.equation}) out of ${tried.map((t) => `${t.isotherm.name} (weight ${t.weight < 0.01 ? "below 0.01" : roughly(t.weight)})`).join(", ")}. What the others would have given is in the intervals, by their weights.`;
	}
}

function intervalSentence({
	differences,
	alpha,
}: ResidueMethodGround): string[] {
	const { family, joint } = differences;
	if (family.length === 0) return [];
	const df = joint.degreesOfFreedom;
	return [
		`The ${percent(1 - alpha)} intervals hold for ${family.length === 1 ? "the one difference" : `all ${family.length} differences together`} (many treatments against a control, two-sided, ${Number.isFinite(df) ? `multivariate t with ${plainNumber(Number(df.toPrecision(3)))} degrees of freedom, the fewest of any difference by Welch and Satterthwaite` : "multivariate normal"}, critical value ${plainNumber(Number(joint.criticalValue.toPrecision(4)))}), with the correlation that common controls and shared errors give them; p is adjusted likewise.`,
	];
}

function scatterSentences({
	differences,
	bySoak,
}: ResidueMethodGround): string[] {
	if (bySoak)
		return [
			"Scatter: one pooled standard deviation between soaks of one treatment, which holds the scatter about each curve (and is never taken for less than that). Errors that several flasks share (standardisation, blanks, calibrations) come on top once, with their signs, so that what moves treated and control alike cancels.",
		];
	const curves = new Map(
		differences.family
			.flatMap((d) => [d.treated, d.control])
			.map((c) => [c.treatment, c]),
	);
	const close = [...curves.values()].filter(
		(c) => c.scatterFrom === "readings",
	);
	const few = [...curves.values()].some((c) => c.degreesOfFreedom < 3);
	return [
		"Each flask's own errors go into its curve; the error of an uptake on the curve is the scatter of the flasks about it, each treatment with its own, by first order in the parameters: the larger of what one scale for all its flasks gives and what the flasks' own residuals give (HC2), since flasks that hold more also scatter more. Errors that several flasks share (standardisation, blanks, calibrations) come on top once, with their signs, so that what moves treated and control alike cancels.",
		...(close.length > 0
			? [
					`The flasks of ${listed(close.map((c) => `"${c.treatment}"`))} lie closer to the curve than their reading errors allow, so that the reading errors were taken.`,
				]
			: []),
		...(few ? ["With so few flasks a curve the intervals are wide."] : []),
	];
}

/** How a comparison at a stated residue was done, in sentences; every rule that is a decision of ours is among them. */
export function residueMethodSentences(g: ResidueMethodGround): string[] {
	const bounds = g.observations.list.filter(
		(o) => o.flask.residue.is === "at most",
	);
	return [
		`Treatments are compared at one stated residue, ${residueText(g.residue)} of ${probeCounted(g.observations.list)} left in solution: an isotherm is fitted to the flasks of each treatment, where it meets their mass balance, and the uptakes at that residue are taken off the curves. Nothing is read off a curve outside the residues that its flasks reached.`,
		choiceSentence(g),
		g.bySoak
			? "Unit: the soak (or firing). Each has an isotherm of its own, and its uptake at the stated residue counts once; a treatment with a single soak borrows the spread of the others."
			: g.scope === "treatment"
				? "Unit: the flask, each with a soak (or firing) of its own, so that the scatter about a curve holds what differs from soak to soak."
				: "Unit: the flask. One soak (or firing) of each treatment is recorded, or none: the verdicts are about these lots of char, not about the treatments.",
		...scatterSentences(g),
		...intervalSentence(g),
		orderSentence(g),
		...(bounds.length > 0
			? [
					`${capital(flasksNamed(bounds.map((o) => o.name)))} ran dry. In a curve such a flask counts as what it is, a residue below the detection limit, by its probability; where what is left of the soak may have used it up, the flask is left out.`,
				]
			: []),
		...demandSentence(g),
		...deviationSentences(g),
		"Days are not blocks here: a difference between days that treated and control have in common lies in the scatter; where they have no common day, no word is said.",
	];
}
