import type { IsothermFit } from "../isotherms";
import { inDigits, requireFit } from "../isotherms";
import {
	type MaybeKnown,
	mapKnown,
	plainNumber,
	problem,
	type ResultKind,
	requireList,
	requireResult,
	throwProblems,
	type WithTable,
	withTable,
} from "../quantity";
import { type DoseAnswer, doseForTarget } from "./dose-for-target";
import { doseTable } from "./dose-table";
import { valueTexts } from "./dose-words";
import { type DoseQuestion, noDoseText } from "./question";

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
	requireFit(fit, "dose.scenarios");
	requireList(starts, "a concentration in mg/L", "dose.scenarios");
	requireList(targets, "a residue in mg/L", "dose.scenarios");
	requireList(plans, "a plan, such as { stages: 2 }", "dose.scenarios");
	const answers = starts.flatMap((start) =>
		targets.flatMap((target) =>
			plans.map((plan) => doseForTarget(fit, { ...plan, start, target })),
		),
	);
	return withTable(answers, doseTable);
}

const answerKind: ResultKind = {
	parts: ["is", "scheme", "stageCount"],
	expected: "an answer, as dose.doseForTarget(fit, question) returns it",
};

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
	requireResult(answer, answerKind, "charFor");
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
