import { commonConfidence, confidenceText, inDigits } from "../isotherms";
import { type Table, table } from "../quantity";
import type { DoseForTarget } from "./dose";
import { stagesText, valueTexts } from "./dose-words";
import { type NoDose, noDoseText } from "./question";

/**
 * A scenario a row: the dose for it, or why there is none.
 */
export function doseTable(answers: readonly (DoseForTarget | NoDose)[]): Table {
	const confidence = commonConfidence(
		answers.flatMap((a) => (a.is === "dose" ? [a.dose] : [])),
		"Dose for a target",
	);
	return table(
		"Dose for a target",
		[
			"treatment",
			"start (mg/L)",
			"target (mg/L)",
			"removal (%)",
			"stages",
			"char (g/L = kg per cubic metre)",
			"from",
			"to",
			"remark",
		],
		answers.map((a) => {
			const head = [
				a.name,
				inDigits(a.start, 4),
				inDigits(a.target, 3),
				a.target < a.start
					? inDigits(100 * (1 - a.target / a.start), 3)
					: "none",
				stagesText(a.scheme, a.stageCount),
			];
			if (a.is === "no dose") return [...head, "none", "", "", noDoseText(a)];
			const { value, low, high } = valueTexts(a.dose);
			return [
				...head,
				value,
				low,
				high,
				[...(a.extrapolating ? [a.place] : []), ...a.cautions].join(" "),
			];
		}),
		[
			`From and to: ${confidenceText(confidence)} interval of the dose that the curve gives, with what all flasks share; not of one more batch.`,
		],
	);
}
