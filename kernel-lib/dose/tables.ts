import type { IsothermFit } from "../isotherms";
import { inDigits } from "../isotherms";
import {
	decimalsFor,
	fixed,
	type MaybeKnown,
	plainNumber,
	problem,
	type Table,
	table,
	throwProblems,
} from "../quantity";
import { type DoseAnswer, doseForTarget } from "./dose-for-target";
import type { FromFits } from "./from-fits";
import { type DoseQuestion, noDoseText } from "./question";
import type { Scheme } from "./stages";

/** "2.14", "1.98 to 2.31"; ends that are not known say so. */
export function valueTexts(n: FromFits): {
	readonly value: string;
	readonly low: string;
	readonly high: string;
} {
	const width =
		n.low.is === "value" && n.high.is === "value"
			? n.high.value - n.low.value
			: n.low.is === "value"
				? 2 * (n.value - n.low.value)
				: 0;
	const text = (v: number): string =>
		width > 0 ? fixed(v, Math.max(0, decimalsFor(width / 4))) : inDigits(v, 3);
	const end = (k: MaybeKnown<number>, none: string): string =>
		k.is === "value" ? text(k.value) : none;
	return {
		value: text(n.value),
		low: end(n.low, "not known"),
		high: end(n.high, "no upper end"),
	};
}

/** A scenario a row: the dose for it, or why there is none. Any questions about any fits. */
export function doseTable(...answers: readonly DoseAnswer[]): Table {
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
			`From and to: ${confidenceOf(answers)} interval of the dose that the curve gives, with what all flasks share; not of one more batch.`,
		],
	);
}

function confidenceOf(answers: readonly DoseAnswer[]): string {
	const levels = answers.flatMap((a) =>
		a.is === "dose" ? [a.dose.confidence] : [],
	);
	return `${Number((100 * (levels[0] ?? 0.95)).toFixed(2))} %`;
}

export function stagesText(scheme: Scheme, count: number): string {
	return count === 1 ? "one" : `${count}, ${scheme}`;
}

/** An answer in a sentence or two, with the treatment that it is about in front: for the head of a page. */
export function doseSentence(answer: DoseAnswer): string {
	const sentence = sentenceOf(answer);
	return answer.name === ""
		? sentence[0].toUpperCase() + sentence.slice(1)
		: `${answer.name}: ${sentence}`;
}

function sentenceOf(answer: DoseAnswer): string {
	const from = `from ${inDigits(answer.start, 3)} to ${inDigits(answer.target, 3)} mg/L`;
	const how =
		answer.stageCount === 1
			? "in one stage"
			: `in ${stagesText(answer.scheme, answer.stageCount).replace(", ", " stages, ")}`;
	if (answer.is === "no dose")
		return answer.code === "target-above-start"
			? `this water needs no char: ${noDoseText(answer)}`
			: `no dose takes this water ${from} ${how} by these data: ${noDoseText(answer)}`;
	const { value, low, high } = valueTexts(answer.dose);
	const interval =
		answer.dose.low.is === "not known"
			? `without an interval: ${answer.dose.low.because}`
			: `${confidenceOf([answer])} interval ${low} to ${high}`;
	return `${value} g of char per litre (kg per cubic metre; ${interval}) takes this water ${from} ${how}.${answer.extrapolating ? ` This lies ${answer.place}: nothing was measured there.` : ""}`;
}

/** Every combination of starts, targets and plans: the scenarios of a person who does not yet know what will be asked. */
export function scenarios(
	fit: IsothermFit,
	starts: readonly DoseQuestion["start"][],
	targets: readonly number[],
	plans: readonly Pick<DoseQuestion, "stages" | "scheme" | "beyond">[] = [{}],
): DoseAnswer[] {
	return starts.flatMap((start) =>
		targets.flatMap((target) =>
			plans.map((plan) => doseForTarget(fit, { ...plan, start, target })),
		),
	);
}

/** One row for each stage of an answer. */
export function stageTable(answer: DoseAnswer): Table {
	const columns = [
		"stage",
		"residue in (mg/L)",
		"residue out (mg/L)",
		"uptake of the char that comes in (mg/g)",
		"uptake of the char that goes out (mg/g)",
		"char through the stage (g/L)",
	];
	if (answer.is === "no dose")
		return table("Stages", columns, [], [`No dose: ${noDoseText(answer)}`]);
	return table(
		`Stages, ${stagesText(answer.scheme, answer.stageCount)}`,
		columns,
		answer.stages.map((s) => [
			s.stage,
			inDigits(s.residueIn, 4),
			inDigits(s.residueOut, 4),
			inDigits(s.uptakeIn, 4),
			inDigits(s.uptake, 4),
			inDigits(s.dose, 4),
		]),
		answer.scheme === "counter-current" && answer.stageCount > 1
			? [
					"One and the same char goes from the last stage to the first; the fresh char is its dose, once.",
				]
			: [],
	);
}

/**
 * Fresh char for a volume of water, kg, with its interval.
 *
 * @param volume cubic metres
 * @throws ProblemError for a volume that is not above zero
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
		k.is === "value" ? { is: "value", value: k.value * volume } : k;
	const scaled = valueTexts({
		...answer.dose,
		value: answer.dose.value * volume,
		low: times(answer.dose.low),
		high: times(answer.dose.high),
	});
	return `${scaled.value} kg of char (${scaled.low} to ${scaled.high} kg) for ${inDigits(volume, 4)} cubic metres`;
}

/** The same target with one stage, and with each scheme up to a number of stages: what further stages save. */
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
