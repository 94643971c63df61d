import { aboutAmount, aboutTexts, type FromFits, valueTexts } from "../dose";
import { confidenceText, inDigits } from "../isotherms";
import { listed, quoted, type Table, table } from "../quantity";
import type { UntoldDose } from "./mixture-answer";

const gramsPerLitre = { unit: "g", perGramPerLitre: 1 } as const;

/** How much char the mixture is forecast to need, in one plain sentence for the title of a page. */
export function mixtureTitle(answer: UntoldDose): string {
	const target = inDigits(answer.target, 3);
	if (answer.is === "no dose")
		return `How much char brings ${quoted(answer.solute)} to ${target} mg/L in the mixture cannot be forecast: ${answer.because}.`;
	const { amount, unknown } = aboutAmount(answer.dose, gramsPerLitre);
	return `A forecast, not measured: beside ${listed(answer.beside.map(quoted))}, about ${amount} of char per litre takes ${quoted(answer.solute)} from ${inDigits(answer.start, 3)} to ${target} mg/L, ${inDigits(answer.times, 3)} times as much as alone${unknown}.`;
}

/** The same with the interval and what it does not cover. */
export function mixtureSentence(answer: UntoldDose): string {
	const target = `${quoted(answer.solute)} at ${inDigits(answer.target, 3)} mg/L`;
	if (answer.is === "no dose")
		return `No dose in the mixture leaves ${target}: ${answer.because}. ${answer.wouldTell}`;
	const { value, low, high } = valueTexts(answer.dose);
	return `Beside ${answer.beside.map(quoted).join(" and ")}, ${value} g of char per litre (kg per cubic metre; ${confidenceText(answer.dose.confidence)} interval ${low} to ${high}) are forecast to leave ${target}, ${inDigits(answer.times, 3)} times the dose for ${quoted(answer.solute)} alone. The interval does not cover the rule itself; a few flasks of the mixture should test it.`;
}

function doseRow(what: string, dose: FromFits): string[] {
	const { value, low, high } = aboutTexts(dose, 1);
	return [what, value, low, high];
}

/** The dose alone and the dose in the mixture. */
export function mixtureTable(a: UntoldDose): Table {
	return table(
		`Dose that leaves ${inDigits(a.target, 3)} mg/L, by the rule: ${a.rule}`,
		["solute", "char (g/L)", "from", "to"],
		a.is === "no dose"
			? [[`${a.solute}, in the mixture`, "none", "", ""]]
			: [
					doseRow(`${a.solute} alone`, a.alone),
					doseRow(`${a.solute} beside ${a.beside.join(", ")}`, a.dose),
				],
		a.is === "no dose" ? [`${a.because}. ${a.wouldTell}`] : a.cautions,
	);
}
