import type { Flask, Trial } from "../bench";
import { furtherApart } from "../quantity";
import { reagentBlanks } from "../residue";
import { titreVolume } from "../solutions";
import { recoveries } from "./recovery";

/** Repeats behind a flask's number that lie further apart than reading them explains: its own titres, the reagent blanks and the blanks without char that correct it. */
export function scatterCautions(trial: Trial, flask: Flask): string[] {
	const blank = reagentBlanks(trial).forDay(flask.day);
	const recovery = recoveries(trial).forDay(flask.day);
	return [
		furtherApart(
			flask.titrations.map((t) => titreVolume(t, trial.settings.endPoint)),
			`Titres of flask ${flask.name}`,
			"mL",
		),
		blank.is === "none" || flask.titrations.length === 0 ? "" : blank.apart,
		recovery.is === "none" ? "" : recovery.apart,
	].filter((text) => text !== "");
}
