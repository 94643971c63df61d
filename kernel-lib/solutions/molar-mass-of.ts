import {
	nowhere,
	type ProblemPlace,
	problem,
	type Quantity,
	throwProblems,
} from "../quantity";
import {
	countedFormula,
	isThiosulfateOfEitherSalt,
	molarMass,
	substanceNamed,
} from "../substances";

/**
 * What the grams of a substance count: a formula written in its place is obeyed, its water of crystallisation included; a name gives the formula on the list of substances.
 * @throws ProblemError for a name that is neither, and for thiosulfate without a word on its water
 */
export function weighedFormula(
	substance: string,
	where: ProblemPlace = nowhere,
): string {
	if (isThiosulfateOfEitherSalt(substance))
		throwProblems([
			problem(
				"which-salt",
				where,
				`grams of "${substance}"`,
				'"sodium thiosulfate pentahydrate" (Na2S2O3·5H2O) or "sodium thiosulfate anhydrous" (Na2S2O3)',
				"Say which salt the grams are of, or give the concentration in mol/L: the two salts differ by 36 %.",
			),
		]);
	const counted = countedFormula(substance);
	if (counted.is === "known") return counted.formula;
	throwProblems([
		problem(
			"substance-unknown",
			where,
			`moles of "${substance}"`,
			"a substance whose molar mass is on record, or a formula",
			"Write its formula as the substance (e.g. K2Cr2O7), or give its concentrations in mg/L.",
		),
	]);
	throw new Error("unreachable");
}

/** Molar mass of what a substance's grams count. @throws ProblemError as `weighedFormula` does */
export function molarMassOf(
	substance: string,
	where: ProblemPlace = nowhere,
): Quantity<"molarMass"> {
	return molarMass(weighedFormula(substance, where));
}

/** What to bear in mind when a substance is weighed; "" where there is nothing to say or it is not on the list. */
export function weighingNoteOf(substance: string): string {
	const found = substanceNamed(substance);
	return found.is === "known" ? found.substance.weighingNote : "";
}
