import type { Flask, Trial } from "../bench";
import { soakSubstances } from "./soak";

/** A final pH from which on iodine's disproportionation must be reckoned with. Common practice, no source. */
const alkalineFrom = 8;

/** What in a flask's own record weakens its number, as full sentences. */
export function flaskCautions(trial: Trial, flask: Flask): string[] {
	const cautions: string[] = [];
	const measured = flask.finalPH.recorded;
	const alkaline = flask.finalPH.recorded
		? flask.finalPH.value.value >= alkalineFrom
		: soakSubstances(trial, flask).some((s) => s.acidity === "alkaline");
	if (alkaline && flask.acidified !== "yes")
		cautions.push(
			`${measured ? "The final liquid was alkaline" : "Alkali may be left in the char"} and the aliquot was ${flask.acidified === "no" ? "not acidified" : "not recorded as acidified"}: in alkali iodine disproportionates and two thiosulfate to one iodine no longer holds.`,
		);
	if (flask.blueReturned === "yes")
		cautions.push(
			"The blue came back after the end point: fines passed the filter and gave iodine back, so the titre is low.",
		);
	if (flask.firstRunningsDiscarded === "no")
		cautions.push(
			"First runnings of the filter were not discarded: the filter itself takes up iodine.",
		);
	return cautions;
}
