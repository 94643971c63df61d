import type { Trial } from "../bench";
import {
	listed,
	type Problem,
	problem,
	quoted,
	throwProblems,
} from "../quantity";
import { safeToDose } from "../uptake";
import {
	type DosesOfTreatment,
	type SeveralDoses,
	severalDoses,
} from "./several-doses";

/**
 * Goes on only where every treatment, or the one that is named, has doses enough for an isotherm. For notebooks whose every step needs one: better one plain sentence at the start than an
 * error of a fit in the middle.
 *
 * @param treatment name of the one treatment that is looked at; "" for all
 * @throws ProblemError with a problem for each treatment that lacks doses, or for a name that the run does not have
 */
export function requireDoses(trial: Trial, treatment = ""): void {
	throwProblems(missingDoses(severalDoses(trial), treatment));
}

/** What is lacking for an isotherm of every treatment, or of the one that is named. */
export function missingDoses(doses: SeveralDoses, treatment = ""): Problem[] {
	const asked = doses.treatments.filter(
		(t) => treatment === "" || t.treatment === treatment,
	);
	if (asked.length === 0)
		return [
			problem(
				"treatment-unknown",
				{},
				`no treatment called ${quoted(treatment)} with flasks of char`,
				`one of ${listed(doses.treatments.map((t) => quoted(t.treatment)))}`,
				"Write the name as it stands in the sheet.",
			),
		];
	return asked.filter((t) => !t.enough).map(lacking);
}

function lacking({
	treatment,
	flasks,
	read,
	ammonia,
	because,
}: DosesOfTreatment): Problem {
	return problem(
		"too-few-doses",
		{},
		`${flasks} ${flasks === 1 ? "flask" : "flasks"} of ${quoted(treatment)}, of which ${read} could be read: ${because}`,
		"doses enough for an isotherm",
		`${safeToDose(ammonia, "Add flasks that end at other residues (a larger dose or less char in each).")} To compare single doses, state no residue and no isotherms (notebook compare-treatments).`,
	);
}
