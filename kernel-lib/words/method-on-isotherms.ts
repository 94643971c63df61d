import {
	type Comparison,
	type ComparisonMethod,
	residueText,
} from "../compare";
import { listed, quoted } from "../quantity";
import {
	allowanceSentences,
	demandSentences,
	deviationSentences,
	intervalSentences,
	orderSentence,
} from "./method-of-both";
import { probeCounted } from "./probe-words";
import { capital, flasksNamed, roughly } from "./wording";

type OnIsotherms = Extract<ComparisonMethod, { readonly is: "isotherms" }>;

function choiceSentence({ choice }: OnIsotherms): string {
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

function scatterSentences({
	bySoak,
	spread,
	curves,
	simultaneous,
}: OnIsotherms): string[] {
	if (bySoak)
		return [
			`Scatter: the standard deviation between soaks of one treatment, which holds the scatter about each curve (and is never taken for less than that); ${spread === "pooled" ? "one for all treatments" : "each treatment's own variance, drawn to the pooled one"}. An error known from few readings counts as many times as Student's t is wider than the normal. Errors that several flasks share (standardisation, blanks, calibrations) come on top once, with their signs: what moves treated and control alike cancels.`,
		];
	const compared = curves.filter((curve) =>
		simultaneous.pairs.some(
			(p) => p.treatment === curve.treatment || p.control === curve.treatment,
		),
	);
	const close = compared.filter((curve) => curve.scatterFrom === "readings");
	const few = compared.some((curve) => curve.degreesOfFreedom < 3);
	return [
		"Each flask's own errors go into its curve; the error of an uptake on the curve is the scatter of the flasks about it, each treatment with its own, by first order in the parameters: the larger of what one scale for all its flasks gives and what the flasks' own residuals give (HC2), since flasks that hold more also scatter more. Errors that several flasks share (standardisation, blanks, calibrations) come on top once, with their signs: what moves treated and control alike cancels.",
		...(close.length > 0
			? [
					`The flasks of ${listed(close.map((c) => `${quoted(c.treatment)}`))} lie closer to the curve than their reading errors allow, so that the reading errors were taken.`,
				]
			: []),
		...(few ? ["With so few flasks a curve the intervals are wide."] : []),
	];
}

function unitSentence({ scope }: Comparison, { bySoak }: OnIsotherms): string {
	if (bySoak)
		return "Unit: the soak (or firing). Each has an isotherm of its own, and its uptake at the stated residue counts once; a treatment with a single soak borrows the spread of the others.";
	return scope === "treatment"
		? "Unit: the flask, each with a soak (or firing) of its own, so that the scatter about a curve holds what differs from soak to soak."
		: "Unit: the flask. One soak (or firing) of each treatment is recorded, or none: the verdicts are about these lots of char, not about the treatments.";
}

function dryFlaskSentences({ compared }: Comparison): string[] {
	const dry = compared.filter((o) => o.flask.residue.is === "at most");
	return dry.length === 0
		? []
		: [
				`${capital(flasksNamed(dry.map((o) => o.name)))} ran dry. In a curve such a flask counts as what it is, a residue below the detection limit, by its probability. Where what is left of the soak may have used it up, the flask is left out.`,
			];
}

/** "1.2 % more", against the flasks of all days. */
function moreOrLess(factor: number): string {
	const percent = 100 * (factor - 1);
	return Math.abs(percent) < 0.05
		? "neither more nor less"
		: `${roughly(Math.abs(percent))} % ${percent > 0 ? "more" : "less"}`;
}

function daySentence({ compared }: Comparison, { days }: OnIsotherms): string {
	if (days.length > 1)
		return `Days are blocks: a day multiplies all uptakes of its flasks by one factor, common to all treatments (${days.map(({ day, factor }) => `${day || "day not recorded"}: ${moreOrLess(factor)}`).join(", ")}). The factors are found together with the curves, by how flasks of a curve and soaks of a treatment differ from day to day. The curves go through uptakes without them. What stays unknown of them is in the intervals where treated and control did not stand on the days alike. Where they have no common day, no word is said.`;
	return compared.some((o) => o.flask.flask.day !== "")
		? "All flasks of a treatment were measured on one day, so that there are no blocks; where treated and control have no common day, no word is said."
		: "Days are not recorded, so that a difference between days cannot be taken out.";
}

/** How treatments were compared at one stated residue. */
export function isothermSentences(
	c: Comparison,
	method: OnIsotherms,
	residue: number,
): string[] {
	return [
		`Treatments are compared at one stated residue, ${residueText(residue)} of ${probeCounted(c.probe)} left in solution: an isotherm is fitted to the flasks of each treatment, where it meets their mass balance, and the uptakes at that residue are taken off the curves. Nothing is read off a curve outside the residues that its flasks reached.`,
		choiceSentence(method),
		unitSentence(c, method),
		...scatterSentences(method),
		...intervalSentences(c),
		orderSentence(c),
		...dryFlaskSentences(c),
		...demandSentences(c),
		...allowanceSentences(c),
		...deviationSentences(c),
		daySentence(c, method),
	];
}
