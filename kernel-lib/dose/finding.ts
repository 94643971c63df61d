import { confidenceText, inDigits, usualConfidence } from "../isotherms";
import { decimalsFor, fixed, type MaybeKnown, quoted } from "../quantity";
import type { DoseForTarget } from "./dose";
import type { FromFits } from "./from-fits";
import type { NoDose } from "./question";

/** Below this, kg, a mass of char is said in grams. Our decision. */
const inGramsBelow = 0.1;

/** How a mass of char is said: its unit, and how many of it a gram of char per litre is. */
export interface MassUnit {
	readonly unit: "g" | "kg";
	readonly perGramPerLitre: number;
}

/** The unit for the char of so many litres of water. */
export function massUnit(gramsPerLitre: number, litres: number): MassUnit {
	const kilograms = (gramsPerLitre * litres) / 1000;
	return kilograms < inGramsBelow
		? { unit: "g", perGramPerLitre: litres }
		: { unit: "kg", perGramPerLitre: litres / 1000 };
}

/** A dose and its ends, each so many times as much, to the first digit of their uncertainty: as they are said at the head of a page. */
export function aboutTexts(
	{ value, low, high }: FromFits,
	times: number,
): { readonly value: string; readonly low: string; readonly high: string } {
	const width =
		low.is === "value"
			? high.is === "value"
				? high.value - low.value
				: 2 * (value - low.value)
			: 0;
	// What rounding leaves of a perfect fit is no width.
	const text = (v: number): string =>
		width > 1e-9 * value
			? fixed(v * times, decimalsFor((width * times) / 4) - 1)
			: inDigits(v * times, 3);
	const end = (k: MaybeKnown<number>, none: string): string =>
		k.is === "value" ? text(k.value) : none;
	return {
		value: text(value),
		low: end(low, "not known"),
		high: end(high, "no upper end"),
	};
}

/** "0.82 kg (0.78 to 0.86 kg)", as the middle of a sentence; what is not known of the interval comes after the sentence. */
export function aboutAmount(
	dose: FromFits,
	{ unit, perGramPerLitre }: MassUnit,
): { readonly amount: string; readonly unknown: string } {
	const { value, low, high } = aboutTexts(dose, perGramPerLitre);
	if (dose.low.is === "not known")
		return {
			amount: `${value} ${unit}`,
			unknown: `; how sure that is cannot be said: ${dose.low.because}`,
		};
	if (dose.high.is === "not known")
		return {
			amount: `${value} ${unit}, and at least ${low} ${unit},`,
			unknown: `; it may take far more: ${dose.high.because}`,
		};
	const sure =
		dose.confidence === usualConfidence
			? ""
			: `${confidenceText(dose.confidence)} interval `;
	return { amount: `${value} ${unit} (${sure}${low} to ${high})`, unknown: "" };
}

/** "the char "fired twice"", or "char" where it has no name. */
function charNamed(name: string): string {
	return name === "" ? "char" : `the char ${quoted(name)}`;
}

function stagesIn({ stageCount, scheme }: DoseForTarget | NoDose): string {
	return stageCount === 1 ? "" : ` in ${stageCount} stages, ${scheme}`;
}

/**
 * How much char the water needs, or why that cannot be said, in one plain sentence for the title of a page.
 *
 * @param litres of water
 */
export function doseFinding(
	answer: DoseForTarget | NoDose,
	litres: number,
): string {
	const mg = (value: number): string => inDigits(value, 3);
	if (answer.is === "no dose")
		switch (answer.code) {
			case "target-above-start":
				return `This water needs no char: it holds ${mg(answer.start)} mg/L, and ${mg(answer.target)} mg/L may stay.`;
			case "target-below-background":
			case "no-uptake-at-target":
				return `No dose of ${charNamed(answer.name)} answers by these flasks: ${answer.because}.`;
			default:
				return `How much of ${charNamed(answer.name)} this water needs cannot be told: ${answer.because}.`;
		}
	const { dose, start, target } = answer;
	const { amount, unknown } = aboutAmount(dose, massUnit(dose.value, litres));
	const water = litres === 1 ? "one litre" : `${inDigits(litres, 4)} L`;
	const probe = answer.probe === "" ? "" : ` of ${answer.probe}`;
	const beyond = answer.extrapolating
		? "; that lies beyond what the flasks showed"
		: "";
	return `About ${amount} of ${charNamed(answer.name)} takes ${water} of this water from ${mg(start)} to ${mg(target)} mg/L${probe}${stagesIn(answer)}${beyond}${unknown}.`;
}
