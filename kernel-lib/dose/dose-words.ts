import { confidenceText, inDigits } from "../isotherms";
import {
	decimalsFor,
	fixed,
	type MaybeKnown,
	quoted,
	type Table,
	table,
} from "../quantity";
import type { DoseForTarget } from "./dose";
import type { FromFits } from "./from-fits";
import { type NoDose, noDoseText } from "./question";
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
	// What rounding leaves of a perfect fit is no width.
	const text = (v: number): string =>
		width > 1e-9 * Math.abs(n.value)
			? fixed(v, Math.max(0, decimalsFor(width / 4)))
			: inDigits(v, 3);
	const end = (k: MaybeKnown<number>, none: string): string =>
		k.is === "value" ? text(k.value) : none;
	return {
		value: text(n.value),
		low: end(n.low, "not known"),
		high: end(n.high, "no upper end"),
	};
}

export function stagesText(scheme: Scheme, count: number): string {
	return count === 1 ? "one" : `${count}, ${scheme}`;
}

/** An answer in a sentence or two, with the treatment that it is about in front: for the head of a page. */
export function doseSentence(answer: DoseForTarget | NoDose): string {
	const sentence = sentenceOf(answer);
	return answer.name === ""
		? sentence[0].toUpperCase() + sentence.slice(1)
		: `${quoted(answer.name)}: ${sentence}`;
}

function sentenceOf(answer: DoseForTarget | NoDose): string {
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
			: `${confidenceText(answer.dose.confidence)} interval ${low} to ${high}`;
	return `${value} g of char per litre (kg per cubic metre; ${interval}) takes this water ${from} ${how}.${answer.extrapolating ? ` This lies ${answer.place}: nothing was measured there.` : ""}`;
}

/** One row for each stage of an answer. */
export function stageTable(answer: DoseForTarget | NoDose): Table {
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
