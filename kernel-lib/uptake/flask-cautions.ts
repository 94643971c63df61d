import type { Flask, Trial } from "../bench";
import { soakSubstances } from "./soak";

/** Final pH between which the titration holds: above, iodine disproportionates; below, thiosulfate decomposes. Common practice, no source. */
export const titrationPH = { low: 2, high: 7.5 } as const;

/** What in a flask's own record weakens its number, as full sentences. */
export function flaskCautions(trial: Trial, flask: Flask): string[] {
	const cautions: string[] = [];
	const measured = flask.finalPH.recorded;
	const alkaline = flask.finalPH.recorded
		? flask.finalPH.value.value > titrationPH.high
		: soakSubstances(trial, flask).some((s) => s.acidity === "alkaline");
	if (alkaline && flask.acidified !== "yes")
		cautions.push(
			`${measured ? "The final liquid was alkaline" : "Alkali may be left in the char"} and the aliquot was ${flask.acidified === "no" ? "not acidified" : "not recorded as acidified"}: in alkali iodine disproportionates and two thiosulfate to one iodine no longer holds.`,
		);
	if (flask.blueReturned === "yes")
		cautions.push(
			"The blue came back after the end point: fines passed the filter and gave iodine back, so the end point is not sure.",
		);
	if (flask.firstRunningsDiscarded === "no")
		cautions.push(
			"First runnings of the filter were not discarded: the filter itself takes up iodine.",
		);
	return cautions;
}
