import type { IsothermFit } from "../isotherms";
import { inDigits } from "../isotherms";
import {
	type MaybeKnown,
	mapKnown,
	plainNumber,
	problem,
	type Table,
	table,
	throwProblems,
	type WithTable,
	withTable,
} from "../quantity";
import { type DoseAnswer, doseForTarget } from "./dose-for-target";
import { doseTable } from "./dose-table";
import { stagesText, valueTexts } from "./dose-words";
import { type DoseQuestion, noDoseText } from "./question";
import type { Scheme } from "./stages";

/**
 * Every combination of starts, targets and plans: the scenarios of a person who does not yet know what will be asked. Shown as a table, a row each.
 * @example
 * const points = isotherms.plainPoints("oak char", [10, 30, 90, 190], [50, 75, 90, 95]);
 * const fit = isotherms.fitIsotherm(isotherms.langmuir, points);
 * dose.scenarios(fit, [100, 200], [10, 20, 30]).length // => 6
 */
export function scenarios(
	fit: IsothermFit,
	starts: readonly DoseQuestion["start"][],
	targets: readonly number[],
	plans: readonly Pick<DoseQuestion, "stages" | "scheme" | "beyond">[] = [{}],
): WithTable<readonly DoseAnswer[]> {
	const answers = starts.flatMap((start) =>
		targets.flatMap((target) =>
			plans.map((plan) => doseForTarget(fit, { ...plan, start, target })),
		),
	);
	return withTable(answers, doseTable);
}

/**
 * Fresh char for a volume of water, kg, with its interval.
 *
 * @param volume cubic metres
 * @throws ProblemError for a volume that is not above zero
 * @example
 * const points = isotherms.plainPoints("oak char", [10, 30, 90, 190], [50, 75, 90, 95]);
 * const fit = isotherms.fitIsotherm(isotherms.langmuir, points);
 * dose.charFor(dose.doseForTarget(fit, { start: 100, target: 10 }), 0.2).slice(0, 15) // => "0.36 kg of char"
 */
export function charFor(answer: DoseAnswer, volume: number): string {
	throwProblems(
		Number.isFinite(volume) && volume > 0
			? []
			: [
					problem(
						"volume-not-positive",
						{},
						Number.isFinite(volume)
							? `${plainNumber(1000 * volume)} litres (${plainNumber(volume)} cubic metres) of water`
							: "a volume of water that is no number",
						"a volume above 0",
						"Change the volume of the water: 200 litres are 0.2 cubic metres.",
					),
				],
	);
	if (answer.is === "no dose") return `No dose: ${noDoseText(answer)}`;
	const times = (k: MaybeKnown<number>): MaybeKnown<number> =>
		mapKnown(k, (v) => v * volume);
	const scaled = valueTexts({
		...answer.dose,
		value: answer.dose.value * volume,
		low: times(answer.dose.low),
		high: times(answer.dose.high),
	});
	return `${scaled.value} kg of char (${scaled.low} to ${scaled.high} kg) for ${inDigits(volume, 4)} cubic metres`;
}

/**
 * The same target with one stage, and with each scheme up to a number of stages: what further stages save.
 * @example
 * const points = isotherms.plainPoints("oak char", [10, 30, 90, 190], [50, 75, 90, 95]);
 * const fit = isotherms.fitIsotherm(isotherms.langmuir, points);
 * dose.planTable(fit, { start: 100, target: 10 }, 2).rows.length // => 4
 */
export function planTable(
	fit: IsothermFit,
	question: Omit<DoseQuestion, "stages" | "scheme">,
	mostStages: number,
): Table {
	const one = doseForTarget(fit, question);
	const schemes: readonly Scheme[] = [
		"cross-current",
		"cross-current, equal doses",
		"counter-current",
	];
	const answers = [
		one,
		...Array.from(
			{ length: Math.max(0, mostStages - 1) },
			(_, i) => i + 2,
		).flatMap((stages) =>
			schemes.map((scheme) =>
				doseForTarget(fit, { ...question, stages, scheme }),
			),
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
