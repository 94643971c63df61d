import { type Table, table } from "../quantity";
import { substances } from "./list";
import type { IodineEffect } from "./substance";

function molesText(effect: IodineEffect): string {
	if (!("molesIodinePerMole" in effect)) return "";
	const moles = effect.molesIodinePerMole;
	return typeof moles === "number" ? `at most ${moles}` : "not known";
}

/**
 * The whole list of substances: names, formulas, and what each that is left in a char does to iodine, with the source.
 * @example
 * substances.substanceTable().title // => "Substances"
 */
export function substanceTable(): Table {
	return table(
		"Substances",
		[
			"name",
			"also called",
			"formula",
			"iodine",
			"I2 per mole",
			"because",
			"source",
		],
		substances.map((s) => [
			s.name,
			s.synonyms.join(", "),
			s.formula,
			s.iodine.is,
			molesText(s.iodine),
			s.iodine.because,
			s.iodine.source,
		]),
	);
}
