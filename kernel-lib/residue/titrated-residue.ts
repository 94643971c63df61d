import type { Flask, Trial } from "../bench";
import {
	type Measured,
	named,
	per,
	type Quantity,
	scaled,
	times,
} from "../quantity";
import { concentrations } from "../solutions";
import { molarMass } from "../substances";
import { accountOf, type FlaskAccount } from "./account";
import { detectionLimit } from "./detection";
import { type ReagentBlank, reagentBlanks } from "./reagent-blank";
import { correctedTitre, iodineOf } from "./titration";

/** What a flask still held when it was titrated. */
export interface TitratedResidue {
	readonly is: "titrated";
	/** With the titres in use. */
	readonly flask: Flask;
	readonly probe: "iodine";
	readonly account: FlaskAccount;
	/** Mean titre less the reagent blank. */
	readonly titre: Quantity<"volume">;
	/** False where the titre is below the detection limit: then `left` is a computed number only and `hidden` is what could be there unseen. */
	readonly measurable: boolean;
	/** Concentration as I2, as computed; may be slightly negative for a flask that ran dry. */
	readonly concentration: Quantity<"concentration">;
	/** Iodine left in the whole liquid, as I2. */
	readonly left: Quantity<"amount">;
	/** Iodine that a titre at the detection limit would mean, in the whole liquid. */
	readonly hidden: Quantity<"amount">;
	/** The same as a mass concentration, a bound where nothing was measurable. */
	readonly residue: Measured<"massConcentration">;
	readonly reagentBlank: ReagentBlank["is"];
}

/**
 * Residue of a flask by titration with thiosulfate: titre less the reagent blank of its day, standardised titrant, aliquot scaled to the liquid that it was taken from.
 */
export function titratedResidue(trial: Trial, flask: Flask): TitratedResidue {
	const { endPoint } = trial.settings;
	const titrants = concentrations(trial);
	const blank = reagentBlanks(trial).forDay(flask.day);
	const account = accountOf(flask, titrants, blank, trial.settings);
	const titre = correctedTitre(flask.titrations, blank, endPoint);
	// All titrations of a flask are with one titrant.
	const thiosulfate = titrants.concentration(flask.titrations[0].titrant);
	const concentration = named(
		per(iodineOf(titre, thiosulfate), flask.aliquot),
		"c_{residue}",
		`iodine (I2) left in solution in flask ${flask.name}`,
	);
	const hiddenConcentration = per(
		scaled(times(thiosulfate, detectionLimit), 0.5),
		flask.aliquot,
	);
	const iodine = molarMass("I2");
	const measurable = titre.in("mL") >= detectionLimit.in("mL");
	return {
		is: "titrated",
		flask,
		probe: "iodine",
		account,
		titre,
		measurable,
		concentration,
		left: named(
			times(concentration, account.liquid),
			"n_{left}",
			`iodine (I2) left in flask ${flask.name}`,
		),
		hidden: named(
			times(hiddenConcentration, account.liquid),
			"n_{hidden}",
			`iodine (I2) that flask ${flask.name} could hold unseen`,
		),
		residue: measurable
			? {
					is: "value",
					quantity: named(
						times(concentration, iodine),
						"ρ_{residue}",
						`residual iodine in flask ${flask.name}`,
					),
				}
			: {
					is: "at most",
					quantity: named(
						times(hiddenConcentration, iodine),
						"ρ_{residue}",
						`most iodine that flask ${flask.name} could hold unseen`,
					),
					because: "its titre was below one drop",
				},
		reagentBlank: blank.is,
	};
}
