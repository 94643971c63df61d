import type { Flask, Trial } from "../bench";
import {
	type Measured,
	named,
	per,
	type Quantity,
	scaled,
	type Table,
	table,
	times,
} from "../quantity";
import { molarMass, type Titrants } from "../solutions";
import { accountOf, type FlaskAccount } from "./account";
import { detectionLimit } from "./detection";
import type { ReagentBlank, ReagentBlanks } from "./reagent-blank";
import { correctedTitre, iodineTitrated } from "./titration";

/** What one flask still held when it was titrated. */
export interface FlaskResidue {
	readonly flask: Flask;
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

function residueOf(
	flask: Flask,
	titrants: Titrants,
	blank: ReagentBlank,
): FlaskResidue {
	const account = accountOf(flask, titrants, blank);
	const titre = correctedTitre(flask.titrations, blank);
	const inAliquot = iodineTitrated(flask.titrations, titrants, blank);
	const concentration = named(
		per(inAliquot, flask.aliquot),
		"c_{residue}",
		`iodine (I2) left in solution in flask ${flask.name}`,
	);
	const hiddenConcentration = per(
		scaled(
			times(
				titrants.concentration(flask.titrations[0].titrant),
				detectionLimit,
			),
			0.5,
		),
		flask.aliquot,
	);
	const iodine = molarMass("I2");
	const measurable = titre.in("mL") >= detectionLimit.in("mL");
	return {
		flask,
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

/**
 * Residue of every flask that was dosed and titrated (char, iodine blanks, leachates), by titration with thiosulfate: reagent-blank-corrected titre, standardised titrant, aliquot
 * scaled to the liquid it was taken from. Rows keep the order of the sheet.
 */
export function residues(
	trial: Trial,
	titrants: Titrants,
	blanks: ReagentBlanks,
): FlaskResidue[] {
	return trial.flasks
		.filter((f) => f.contents !== "reagent blank" && !f.readings.recorded)
		.map((f) => residueOf(f, titrants, blanks.forDay(f.day)));
}

/** What was found in each flask, for people. */
export function residueTable(found: readonly FlaskResidue[]): Table {
	return table(
		"Iodine left in solution",
		[
			"flask",
			"contents",
			"titre less blank (mL)",
			"liquid (mL)",
			"residual iodine (mg/L)",
			"iodine left, as I2 (mmol)",
		],
		found.map((r) => [
			r.flask.name,
			r.flask.contents,
			r.titre,
			r.account.liquid,
			r.residue,
			r.measurable ? r.left : "not measurable",
		]),
		found.some((r) => r.reagentBlank === "none")
			? ["No reagent blank is recorded: nothing was taken off the titres."]
			: found.some((r) => r.reagentBlank === "other days")
				? [
						"Some days have no reagent blank of their own; the mean of the other days was taken.",
					]
				: [],
	);
}
