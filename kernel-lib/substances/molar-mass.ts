import {
	input,
	named,
	type Quantity,
	rectangular,
	requireText,
	scaled,
	stated,
	total,
	valueOrThrow,
} from "../quantity";
import { atomicWeightSource, atomicWeights } from "./atomic-weights";
import { composition } from "./formula";

/** Atomic weights are the same inputs wherever they appear, so that two iodine masses share the error of iodine's atomic weight. */
const elements = new Map<string, Quantity<"molarMass">>(
	Object.entries(atomicWeights).map(([element, [weight, halfWidth]]) => [
		element,
		input("molarMass", weight, "g/mol", rectangular(halfWidth), {
			symbol: `A_{${element}}`,
			meaning: `atomic weight of ${element}`,
			source: stated(atomicWeightSource),
		}),
	]),
);

const known = new Map<string, Quantity<"molarMass">>();

/**
 * Molar mass of any formula (hydrates and nested brackets included) from the abridged standard atomic weights of 2021, with their uncertainty: the plus-minus of a weight
 * is taken as a range in which every value is equally likely (JCGM 100:2008, 4.3.7); atoms of one element share its error.
 *
 * @throws ProblemError for a formula that cannot be read, with the place
 * @example
 * substances.molarMass("H2O").in("g/mol") // => 18.015
 * substances.molarMass("Na2S2O3·5H2O").in("g/mol") // => 248.172
 */
export function molarMass(formula: string): Quantity<"molarMass"> {
	const before = known.get(formula);
	if (before !== undefined) return before;
	requireText(formula, 'a chemical formula in quotes, such as "K2CO3"', "");
	const parts = Object.entries(valueOrThrow(composition(formula)));
	const mass = named(
		total(
			parts.map(([element, n]) => {
				const weight = elements.get(element) as Quantity<"molarMass">;
				return n === 1 ? weight : scaled(weight, n);
			}),
		),
		`M_{${formula}}`,
		`molar mass of ${formula}`,
	);
	known.set(formula, mass);
	return mass;
}
