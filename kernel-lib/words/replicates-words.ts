import type {
	Comparison,
	Replicates,
	TreatmentVerdict,
	VerdictScope,
} from "../compare";
import { quoted } from "../quantity";
import { obstacleHeadline } from "./obstacle-words";
import { counted, percent, roughly } from "./wording";

type Numbered = Extract<Replicates, { readonly units: number }>;
type NotGiven = Extract<Replicates, { readonly is: "not given" }>;

/** "8 soaks of each treatment would tell", after a sentence that cannot tell. */
export function replicatesClosing(r: Replicates): string[] {
	switch (r.is) {
		case "number":
			return [`${counted(r.units, "soak")} of each treatment would tell`];
		case "at least":
			return [
				`At least ${counted(r.units, "soak")} of each treatment would be needed to tell`,
			];
		default:
			return [];
	}
}

function ruleText(confidence: number): string {
	return `with so many the whole ${percent(confidence)} interval is no wider than the margin, so that it decides whatever the difference is`;
}

function spreadText(spread: string, scope: VerdictScope, rule: string): string {
	switch (scope) {
		case "treatment":
			return `Reckoned with a spread between soaks of ${spread} mg/g (upper 80 % limit of the one seen): ${rule}.`;
		case "these lots":
			return `So many flasks of each lot would settle it for these lots, reckoned with a spread between flasks of ${spread} mg/g (upper 80 % limit of the one seen); to speak of the treatment at least as many soaks are needed, since soaks differ more than flasks of one soak.`;
		case "measuring error only":
			return `Reckoned with the stated spread of ${spread} mg/g: ${rule}. A spread that was not seen may be larger.`;
	}
}

/** What no number of soaks takes off, and what would; "" where there is nothing of the kind. */
export function slopesReason({ replicates }: TreatmentVerdict): string {
	if (
		replicates.is !== "at least" ||
		replicates.from.is !== "spread between units" ||
		replicates.from.slopes === 0
	)
		return "";
	return `How steeply uptake grows with the residue was not measured: allowing for every 1/n adds ${roughly(replicates.from.slopes)} mg/g to the width of the interval, which more soaks do not take off.`;
}

function numberText({ is, from }: Numbered, c: Comparison): string {
	const rule = ruleText(c.confidence);
	if (from.is === "spread between units")
		return spreadText(
			roughly(from.spread),
			c.scope,
			from.slopes > 0 ? `${rule}, were the slopes known` : rule,
		);
	return is === "number"
		? `Reckoned with the upper 80 % limit of the scatter ${from.of === "soaks" ? "between soaks, each with an isotherm" : "about the isotherms, each flask with a soak of its own, at the doses"} as in this trial: ${rule}.`
		: `Reckoned with the upper 80 % limit of the scatter about the isotherms: ${from.times} times the flasks of this trial, at the same doses, would settle it for these lots (${rule}); to speak of the treatment at least as many soaks are needed, each with such an isotherm.`;
}

function notGivenText({ why }: NotGiven, v: TreatmentVerdict): string {
	switch (why.is) {
		case "no spread":
			return "This trial shows no spread, and none was stated: without a spread the number of replicates cannot be told.";
		case "no margin":
			return `How many replicates would tell is reckoned from the margin: ${why.because}.`;
		case "claim":
			return "However many replicates there are, a difference about as large as the margin stays open with this claim, so that no number is sure to tell.";
		case "other obstacle":
			return `More replicates would not help: ${v.obstacles.length > 0 ? obstacleHeadline(v.obstacles[0]) : "nothing is known of the difference"}.`;
		case "shared error":
			return `No number of replicates helps: the shared error of ${quoted(why.of)} (${roughly(why.effect)} mg/g in this difference) must shrink first.`;
		case "errors of the curves":
			return `No number of flasks helps: errors that the curves share (${roughly(why.effect)} mg/g in this difference: solutions, calibrations, the form of the isotherm) must shrink first.`;
		case "too many":
			return `More than ${why.most} of each treatment would be needed: the spread must shrink first, or the margin be wider.`;
		case "too many times the flasks":
			return `More than ${why.most} times the flasks would be needed: the scatter must shrink first, or the margin be wider.`;
	}
}

/** Why so many replicates would tell, or why no number is given; "" where the word is decided. */
export function replicatesReason(c: Comparison, v: TreatmentVerdict): string {
	const { replicates } = v;
	switch (replicates.is) {
		case "enough":
			return "";
		case "not given":
			return notGivenText(replicates, v);
		default:
			return [numberText(replicates, c), slopesReason(v)]
				.filter((text) => text !== "")
				.join(" ");
	}
}
