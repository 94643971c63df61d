import { problem, throwProblems } from "../quantity";
import type { DosesOfTreatment, SeveralDoses } from "./several-doses";
import { listed } from "./words";

/**
 * Goes on only where every treatment, or the one that is named, has doses enough for an isotherm. For notebooks whose every step needs one: better one plain sentence at the start than an
 * error of a fit in the middle.
 *
 * @param treatment name of the one treatment that is looked at; "" for all
 * @throws ProblemError with a problem for each treatment that lacks doses, or for a name that the run does not have
 */
export function requireDoses(doses: SeveralDoses, treatment = ""): void {
	const asked = doses.treatments.filter(
		(t) => treatment === "" || t.treatment === treatment,
	);
	if (asked.length === 0)
		throwProblems([
			problem(
				"treatment-unknown",
				{},
				`no treatment called "${treatment}" with flasks of char`,
				`one of ${listed(doses.treatments.map((t) => `"${t.treatment}"`))}`,
				"Write the name as it stands in the sheet.",
			),
		]);
	throwProblems(asked.filter((t) => !t.enough).map(lacking));
}

function lacking({ treatment, flasks, read, because }: DosesOfTreatment) {
	return problem(
		"too-few-doses",
		{},
		`${flasks} ${flasks === 1 ? "flask" : "flasks"} of "${treatment}", of which ${read} could be read: ${because}`,
		"doses enough for an isotherm",
		"Add flasks that end at other residues (more iodine or less char in each); to compare single doses take the notebook compare-treatments.",
	);
}
