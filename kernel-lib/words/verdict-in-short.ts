import type { Comparison, TreatmentVerdict } from "../compare";
import { listed } from "../quantity";
import { judgedOn, obstaclesInWay } from "./verdict-clauses";
import { capital, flasksNamed, marginText, sentence } from "./wording";

/** Why nothing can be told: what stands in the way, else the interval. */
function whyNotTold(c: Comparison, v: TreatmentVerdict): string {
	if (v.obstacles.length > 0) return capital(listed(obstaclesInWay(c, v)));
	if (v.difference.is !== "estimate") return "Only a bound is known";
	const margin = marginText(c, v);
	if (margin.is === "not known") return "The interval takes in zero";
	if (c.claim === "difference")
		return `The interval takes in zero and reaches past the ${margin.value} that would matter`;
	return `Whether it is the ${margin.value} that would matter or more is open`;
}

/** What "no difference that matters" was judged on, and that it may yet be sure. */
function whyTheSame(c: Comparison, v: TreatmentVerdict): string {
	const { difference: d } = v;
	const margin = marginText(c, v);
	if (d.is !== "estimate" || margin.is === "not known") return "";
	const sure =
		d.low > 0 || d.high < 0
			? `; surely ${d.low > 0 ? "higher" : "lower"}, but by less than matters`
			: "";
	return `${judgedOn(c, v, d).text}, within the ${margin.value} that would matter${sure}`;
}

/** Whether what was found is more than matters. */
function whyDifferent(c: Comparison, v: TreatmentVerdict): string {
	const margin = marginText(c, v);
	if (margin.is === "not known")
		return c.scope === "measuring error only"
			? "Beyond the measuring error; nothing else was seen"
			: "The interval leaves out zero";
	return v.exceedsMargin
		? `More than the ${margin.value} that would matter`
		: `Whether it is more than the ${margin.value} that would matter is open`;
}

function reason(c: Comparison, v: TreatmentVerdict): string {
	switch (v.word) {
		case "cannot tell":
			return whyNotTold(c, v);
		case "no difference that matters":
			return whyTheSame(c, v);
		default:
			return whyDifferent(c, v);
	}
}

/** Which of two words was said, where a deviation decides. */
function deviation(
	{ deviations }: Comparison,
	{ word, withDeviations, withoutDeviations }: TreatmentVerdict,
): string {
	if (withDeviations === withoutDeviations) return "";
	const [said, other] =
		word === withDeviations
			? (["with", withoutDeviations] as const)
			: (["without", withDeviations] as const);
	return ` Only ${said} ${flasksNamed(deviations.flasks)}, touched by a deviation; else "${other}".`;
}

/** One short line under the word of a verdict: what decided it. Its whole sentence is `verdictSentence`. */
export function verdictInShort(c: Comparison, v: TreatmentVerdict): string {
	return `${sentence(reason(c, v))}${deviation(c, v)}`;
}
