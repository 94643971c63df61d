import type { TitrationReading } from "../bench";
import {
	meanOfRepeats,
	minus,
	named,
	type Quantity,
	scaled,
	times,
} from "../quantity";
import { type Titrants, titreVolume } from "../solutions";
import type { ReagentBlank } from "./reagent-blank";

/**
 * The titre less the reagent blank; the mean where an aliquot was titrated in duplicate (duplicates belong to one flask and are averaged inside it), with the larger of reading error and scatter.
 */
export function correctedTitre(
	readings: readonly TitrationReading[],
	blank: ReagentBlank,
): Quantity<"volume"> {
	const titre = meanOfRepeats(readings.map(titreVolume), "titres of a flask");
	return named(
		blank.is === "none" ? titre : minus(titre, blank.titre),
		"V_{t}",
		"titre less the reagent blank",
	);
}

/**
 * Iodine (as I2) in a titrated aliquot: n = c_t V_t / 2, from I2 + 2 S2O3(2-) -> 2 I(-) + S4O6(2-).
 * All readings must be of one titrant.
 */
export function iodineTitrated(
	readings: readonly TitrationReading[],
	titrants: Titrants,
	blank: ReagentBlank,
): Quantity<"amount"> {
	const thiosulfate = titrants.concentration(readings[0].titrant);
	return named(
		scaled(times(thiosulfate, correctedTitre(readings, blank)), 0.5),
		"n_{aliquot}",
		"iodine (I2) in the aliquot",
	);
}
