import { agentsIn } from "../activation";
import type { Flask } from "../bench";
import type { IodineDemand } from "./flask-uptake";

/** A soak is named by what it was soaked in; where the sheet has no such column, by the name of the treatment. */
function soakWords(flask: Flask): string {
	return flask.soakedIn !== "" ? flask.soakedIn : flask.treatment;
}

/**
 * Whether what is left of a flask's soak may consume iodine, before any leachate is looked at. The sheet's own word ("soak consumes iodine") comes first; then what the soak's
 * name tells.
 */
export function suspectedDemand(flask: Flask): IodineDemand {
	if (flask.soakConsumesIodine === "no") return { is: "none expected" };
	if (flask.soakConsumesIodine === "yes")
		return {
			is: "suspected",
			because: "the sheet says that the soak consumes iodine",
		};
	const agent = agentsIn(soakWords(flask)).find((a) => a.consumesIodine !== "");
	return agent === undefined
		? { is: "none expected" }
		: { is: "suspected", because: agent.consumesIodine };
}

/** A final pH from which on iodine's disproportionation must be reckoned with. Common practice, no source. */
const alkalineFrom = 8;

/** What in a flask's own record weakens its number, as full sentences. */
export function flaskCautions(flask: Flask): string[] {
	const cautions: string[] = [];
	const measured = flask.finalPH.recorded;
	const alkaline = flask.finalPH.recorded
		? flask.finalPH.value.value >= alkalineFrom
		: agentsIn(soakWords(flask)).some((a) => a.alkaline);
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
