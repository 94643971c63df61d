import type { TitrationReading } from "../bench";
import {
	meanOfRepeats,
	minus,
	named,
	type Quantity,
	scaled,
	sheetHash,
	times,
} from "../quantity";
import { type Titrants, titreVolume } from "../solutions";
import { detectionLimit, unseenTitre } from "./detection";
import type { ReagentBlank } from "./reagent-blank";

/**
 * The titre less the reagent blank; the mean where an aliquot was titrated in duplicate (duplicates belong to one flask and are averaged inside it), with the larger of reading error and scatter.
 *
 * @param endPoint error of the end point, mL
 */
export function correctedTitre(
	readings: readonly TitrationReading[],
	blank: ReagentBlank,
	endPoint: number,
): Quantity<"volume"> {
	const titre = meanOfRepeats(
		readings.map((r) => titreVolume(r, endPoint)),
		"titres of a flask",
	);
	return named(
		blank.is === "none" ? titre : minus(titre, blank.titre),
		"V_{t}",
		"titre less the reagent blank",
	);
}

/** Iodine (as I2) in a titrated aliquot: n = c_t V_t / 2, from I2 + 2 S2O3(2-) -> 2 I(-) + S4O6(2-). */
export function iodineOf(
	titre: Quantity<"volume">,
	thiosulfate: Quantity<"concentration">,
): Quantity<"amount"> {
	return named(
		scaled(times(thiosulfate, titre), 0.5),
		"n_{aliquot}",
		"iodine (I2) in the aliquot",
	);
}

/** Iodine in a portion that was withdrawn on the way. */
export interface IodineWithdrawn {
	/** Where nothing was seen, between nothing and what the detection limit could hide. */
	readonly amount: Quantity<"amount">;
	/** The most that could be in it unseen; not there where iodine was seen. */
	readonly unseen?: Quantity<"amount">;
}

export function iodineWithdrawn(
	reading: TitrationReading,
	titrants: Titrants,
	blank: ReagentBlank,
	endPoint: number,
): IodineWithdrawn {
	const titre = correctedTitre([reading], blank, endPoint);
	const thiosulfate = titrants.concentration(reading.titrant);
	if (titre.in("mL") >= detectionLimit.in("mL"))
		return { amount: iodineOf(titre, thiosulfate) };
	const { sheet, row, column } = reading.place;
	const where = [sheetHash(titre), sheet, row, column].join("|");
	return {
		amount: iodineOf(unseenTitre(where), thiosulfate),
		unseen: iodineOf(detectionLimit, thiosulfate),
	};
}
