import type { IsothermFit } from "../isotherms";
import { inDigits } from "../isotherms";
import { type Table, table } from "../quantity";
import { answerTo } from "./answer";
import { stagesText, valueTexts } from "./dose-words";
import { type DoseQuestion, noDoseText } from "./question";
import type { Scheme } from "./stages";

/** A fourth stage saves little and has to be built, filled and emptied like the others. Our decision. */
const mostStages = 3;

/** The same target with one stage, and with each scheme up to `mostStages`: what further stages save. */
export function planTable(fit: IsothermFit, question: DoseQuestion): Table {
	const one = answerTo(fit, { ...question, stages: 1, scheme: undefined });
	const schemes: readonly Scheme[] = [
		"cross-current",
		"cross-current, equal doses",
		"counter-current",
	];
	const answers = [
		one,
		...Array.from({ length: mostStages - 1 }, (_, i) => i + 2).flatMap(
			(stages) =>
				schemes.map((scheme) => answerTo(fit, { ...question, stages, scheme })),
		),
	];
	return table(
		"What further stages save",
		[
			"stages",
			"char (g/L = kg per cubic metre)",
			"from",
			"to",
			"of the one-stage dose (%)",
			"remark",
		],
		answers.map((a) => {
			if (a.is === "no dose")
				return [
					stagesText(a.scheme, a.stageCount),
					"none",
					"",
					"",
					"",
					noDoseText(a),
				];
			const { value, low, high } = valueTexts(a.dose);
			return [
				stagesText(a.scheme, a.stageCount),
				value,
				low,
				high,
				one.is === "dose"
					? inDigits((100 * a.dose.value) / one.dose.value, 3)
					: "",
				a.extrapolating ? a.place : "",
			];
		}),
		[
			"cross-current: fresh char in every stage, split so that the total is least. counter-current: fresh char where the water leaves, passed on to where it enters; it asks for filtering and moving wet char between stages.",
		],
	);
}
