import type { IsothermFit } from "../isotherms";
import { requireFit } from "../isotherms";
import { type Table, withTable } from "../quantity";
import { answerTo } from "./answer";
import type { DoseForTarget } from "./dose";
import { doseTable } from "./dose-table";
import { doseSentence, stageTable } from "./dose-words";
import { planTable } from "./plan-table";
import type { DoseQuestion, NoDose } from "./question";
import { sensitivityTable } from "./sensitivity";

/** An answer in words, whether there is a dose or not. */
export interface DoseWords {
	/** For the head of a page, with the treatment in front. */
	readonly sentence: string;
	/** One row: the dose with its interval, or why there is none. */
	readonly table: Table;
	/** A row for each stage. */
	readonly stageTable: Table;
	/** Which input matters: what 1 % more of start, target or a parameter changes, and what the interval is made of. */
	readonly sensitivityTable: Table;
	/** The same target with one stage, and with each scheme up to three stages: what further stages save. */
	readonly planTable: Table;
}

export type DoseAnswer = (DoseForTarget | NoDose) & DoseWords;

/**
 * The dose of char that takes water from a start to a target, from a fitted isotherm and the mass balance of each stage: fresh char D = (C0 - C)/q(C), exactly as in a flask that is left to reach equilibrium. The interval
 * carries the scatter of the flasks and every shared error (titrants, calibrations, blanks, the start concentration where it is a quantity); it is the uncertainty of the dose that the curve gives, by the
 * delta method on its logarithm, not of one more flask. Shown as a table of one row.
 *
 * @throws ProblemError for a start, target or number of stages that is no such thing; a sensible question without an answer gets a reason instead
 * @example
 * const points = isotherms.plainPoints("oak char", [10, 30, 90, 190], [50, 75, 90, 95]);
 * const fit = isotherms.fitIsotherm(isotherms.langmuir, points);
 * // (100 - 10) mg/L over 50 mg/g
 * const answer = dose.doseForTarget(fit, { start: 100, target: 10 });
 * answer.is === "dose" && answer.dose.value // => 1.8
 * answer.sensitivityTable // => "Which input matters for the dose"
 * answer.planTable.rows.length // => 7
 */
export function doseForTarget(
	fit: IsothermFit,
	question: DoseQuestion,
): DoseAnswer {
	requireFit(fit, "doseForTarget");
	const answer = answerTo(fit, question);
	const worded = {
		...answer,
		sentence: doseSentence(answer),
		stageTable: stageTable(answer),
	};
	const shown = withTable(worded, () => doseTable([answer]));
	const sensitive = withTable(
		shown,
		() => sensitivityTable(fit, question),
		"sensitivityTable",
	);
	return withTable(sensitive, () => planTable(fit, question), "planTable");
}

/** What holds for every dose, however good the fit: for the page. */
export const doseCautions: readonly string[] = [
	"A dose from flasks left to equilibrium holds for this water, this char, this temperature and a contact as long as in the flasks. Another water brings other substances that compete for the char, and then the dose is too small.",
	"The interval is that of the curve; a single batch scatters about it. Leave a margin, and measure what is left.",
	"Nothing here certifies a filter or a treatment of drinking water.",
	"Used char carries what it took up. Keep it wet and labelled, do not burn or compost it, and dispose of it by the local rules.",
];
