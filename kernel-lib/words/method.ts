import { type Comparison, requireComparison } from "../compare";
import { type Table, table } from "../quantity";
import { carriedSentences } from "./method-carried";
import { decisionSentences } from "./method-of-both";
import { isothermSentences } from "./method-on-isotherms";
import { verdictReasons } from "./verdict-reasons";

/** How the comparison was done, in sentences: unit, blocks, spread, isotherms, the rule of equivalence, how bounds were used; every rule that is a decision of ours is among them. */
export function methodSentences(c: Comparison): string[] {
	const { method, at } = c;
	return [
		...c.trial.setAside,
		...(method.is === "carried" && at.is === "carried"
			? carriedSentences(c, method, at)
			: []),
		...(method.is === "isotherms" && at.is === "isotherms"
			? isothermSentences(c, method, at.residue.in("mg/L"))
			: []),
		...decisionSentences(c),
	];
}

/**
 * How the verdicts were reached: how the comparison was done, and for each verdict why it is this word.
 * @example
 * const compared = compare.compareTreatments(trial, { margin: compare.marginOf(25) });
 * words.methodTable(compared).title // => "How the verdicts were reached"
 */
export function methodTable(comparison: Comparison): Table {
	requireComparison(comparison, "words.methodTable");
	return table(
		"How the verdicts were reached",
		["concerns", "what was done, and why"],
		[
			...methodSentences(comparison).map((text) => ["all treatments", text]),
			...comparison.verdicts.flatMap((v) =>
				verdictReasons(comparison, v).map((text) => [v.treatment, text]),
			),
		],
	);
}
