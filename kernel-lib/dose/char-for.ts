import { commonConfidence, confidenceText, inDigits } from "../isotherms";
import {
	plainNumber,
	problem,
	type ResultKind,
	requireResults,
	type Table,
	table,
	throwProblems,
	withTable,
} from "../quantity";
import type { DoseAnswer } from "./dose-for-target";
import { aboutTexts, doseFinding, type MassUnit, massUnit } from "./finding";
import type { Scheme } from "./stages";

/** The char that a volume of water needs, by one plan or several: a row each. */
export interface CharForWater {
	/** By the first plan, in one sentence for the title of a page. */
	readonly finding: string;
	readonly table: Table;
}

const answerKind: ResultKind = {
	parts: ["is", "scheme", "stageCount"],
	expected: "an answer, as dose.doseForTarget(fit, question) returns it",
};

function requireVolume(litres: number): void {
	throwProblems(
		Number.isFinite(litres) && litres > 0
			? []
			: [
					problem(
						"volume-not-positive",
						{},
						Number.isFinite(litres)
							? `${plainNumber(litres)} litres of water`
							: "a volume of water that is no number",
						"a volume above 0",
						"Change the volume of the water, in litres.",
					),
				],
	);
}

/**
 * Fresh char for a volume of water, by one plan or by several of the same water and target: in a sentence for the first, and as a table with a row for each.
 *
 * @param plans answers of `doseForTarget`, the one to go by first
 * @param litres of water
 * @throws ProblemError for a volume that is not above zero, for no plan, and for plans of different confidence
 * @example
 * const points = isotherms.plainPoints("oak", [10, 30, 90, 190], [50, 75, 90, 95]);
 * const fit = isotherms.fitIsotherm(isotherms.langmuir, points);
 * const plan = dose.doseForTarget(fit, { start: 100, target: 10 });
 * // 1.8 g for each of 200 litres
 * dose.charFor([plan], 200).finding.slice(0, 17) // => "About 0.36 kg (0."
 * dose.charFor([plan], 200).table.columns.length // => 4
 */
export function charFor(
	plans: readonly DoseAnswer[],
	litres: number,
): CharForWater {
	requireResults(plans, answerKind, "charFor");
	requireVolume(litres);
	throwProblems(
		plans.length > 0
			? []
			: [
					problem(
						"no-plan",
						{ call: "charFor" },
						"an empty list",
						"one answer of dose.doseForTarget or more",
						"Give the answer to go by first.",
					),
				],
	);
	return withTable({ finding: doseFinding(plans[0], litres) }, () =>
		charTable(plans, litres),
	);
}

/** How the water meets the char. */
function planText(count: number, scheme: Scheme): string {
	if (count === 1) return "one stage";
	const how = {
		"cross-current": "fresh char in each",
		"cross-current, equal doses": "equal fresh portions",
		"counter-current": "char against the water",
	}[scheme];
	return `${count} stages, ${how}`;
}

function charRow(
	plan: DoseAnswer,
	{ perGramPerLitre }: MassUnit,
): readonly string[] {
	const how = planText(plan.stageCount, plan.scheme);
	if (plan.is === "no dose") return [how, "none", "", ""];
	const { value, low, high } = aboutTexts(plan.dose, perGramPerLitre);
	return [how, value, low, high];
}

function notesOn(plans: readonly DoseAnswer[]): string[] {
	const doses = plans.flatMap((p) => (p.is === "dose" ? [p] : []));
	const refused = plans.flatMap((p) =>
		p.is === "no dose"
			? [`${planText(p.stageCount, p.scheme)}: ${p.because}.`]
			: [],
	);
	const beyond = doses
		.filter((p) => p.extrapolating)
		.map(
			(p) =>
				`${planText(p.stageCount, p.scheme)}: ${p.place}; nothing was measured there.`,
		);
	return doses.length === 0
		? [...new Set(refused)]
		: [
				`From and to: ${confidenceText(
					commonConfidence(
						doses.map((p) => p.dose),
						"charFor",
					),
				)} interval of what the curve gives, not of one more batch.`,
				...beyond,
				...refused,
			];
}

function charTable(plans: readonly DoseAnswer[], litres: number): Table {
	const first = plans.find((p) => p.is === "dose");
	const mass = massUnit(first?.is === "dose" ? first.dose.value : 1, litres);
	return table(
		`Char for ${inDigits(litres, 4)} L of water`,
		["how it is used", `char (${mass.unit})`, "from", "to"],
		plans.map((plan) => charRow(plan, mass)),
		notesOn(plans),
	);
}
