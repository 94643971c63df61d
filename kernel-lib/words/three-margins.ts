import {
	type Comparison,
	requireComparison,
	threeMargins,
	wordAt,
} from "../compare";
import { plainNumber, type Table, table } from "../quantity";

const noShare = "not given";

/**
 * The words that three margins would have given, where none was set: 5, 10 and 20 % of the control's uptake. Chosen with the results in sight they are no margins that were set beforehand, and the notes say so. A table
 * without rows where a margin was set.
 * @example
 * words.wordsAtThreeMargins(compare.compareTreatments(trial)).title // => "The words at three margins"
 */
export function wordsAtThreeMargins(c: Comparison): Table {
	requireComparison(c, "words.wordsAtThreeMargins");
	const rows =
		c.margin.is === "not set"
			? c.verdicts.flatMap((v) => {
					const margins = threeMargins(
						c.groups,
						v.control,
						c.at.residue.in("mg/L"),
					);
					return margins.is === "not known"
						? [[v.treatment, noShare, `not given: ${margins.because}`]]
						: margins.value.map((margin) => [
								v.treatment,
								plainNumber(margin),
								wordAt(v.ground, margin),
							]);
				})
			: [];
	return table(
		"The words at three margins",
		["treatment", "margin (mg/g)", "verdict at this margin"],
		rows,
		rows.length === 0
			? []
			: [
					"No margin was set. These are 5, 10 and 20 % of the control's uptake, to two digits: a choice of this program. A margin that is chosen after the results were seen proves nothing; set the next one beforehand.",
				],
	);
}
