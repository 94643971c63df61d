import { requireTrial, type Trial } from "../bench";
import {
	type Problem,
	problem,
	type Table,
	throwProblems,
	withTable,
} from "../quantity";
import { compareCarried } from "./compare-carried";
import { compareOnIsotherms } from "./compare-on-isotherms";
import { type Asked, sensitivityTable } from "./decisions";
import { type Portions, portionsAsDecided, portionsOf } from "./portions";
import { missingDoses } from "./require-doses";
import { scatterTable } from "./scatter";
import { type CompareOptions, requireCompareOptions } from "./settings";
import { type SeveralDoses, severalDoses } from "./several-doses";
import { residueOfTrial } from "./stated-residue";
import type { Comparison } from "./verdict";

/**
 * Treatments of a trial against their controls: a verdict of four words for each, with simultaneous intervals (Dunnett's kind, for any correlation), the rules of comparability, what may have consumed iodine,
 * and the same with and without what deviations touched. All treatments are compared at one residue: on an isotherm each where every treatment has four doses or more; else each flask is carried there, along a slope that doses
 * by design have measured or along all that are allowed for (`at` of the result says which, and at what residue).
 *
 * @param options margin and claim, set before looking; optional the stated residue, isotherms to choose from, confidence, a spread from experience
 * @throws ProblemError for options that it does not have or cannot take, for isotherms where the doses are too few, and for a trial that cannot be compared at all (no flasks, no treatment, a
 * control that is not there); all problems at once
 * @example
 * const compared = compare.compareTreatments(trial, { margin: compare.marginOf(25), residue: compare.residueOf(3000) });
 * compared.verdicts.map((v) => v.treatment) // => ["potash", "washing soda", "wood vinegar", "fired twice"]
 */
export function compareTreatments(
	trial: Trial,
	options: CompareOptions = {},
): Comparison & { readonly sensitivity: Table; readonly scatter: Table } {
	requireTrial(trial);
	requireCompareOptions(options);
	return withTable(
		withTable(
			compared({ trial, options }, portionsOf(trial)),
			scatterTable,
			"scatter",
		),
		(c) =>
			sensitivityTable(c, { trial, options }, (asked) =>
				compared(asked, portionsAsDecided(asked.trial)),
			),
		"sensitivity",
	);
}

function compared({ trial, options }: Asked, portions: Portions): Comparison {
	const doses = severalDoses(trial);
	if (!doses.holds && options.isotherms === undefined)
		return compareCarried(portions, options);
	throwProblems(withoutCurves(doses));
	return compareOnIsotherms(portions, {
		...options,
		residue: options.residue ?? residueOfTrial(doses.common.middle),
		statedBy: options.residue === undefined ? "nobody" : "the experimenter",
	});
}

/** Why a comparison on isotherms was asked for and cannot be had; a curve that was stated is never passed over in silence. */
function withoutCurves(doses: SeveralDoses): Problem[] {
	if (doses.holds || doses.treatments.length === 0) return [];
	const missing = missingDoses(doses);
	if (missing.length > 0) return missing;
	return [
		problem(
			"no-common-residue",
			{ column: "isotherms" },
			doses.because,
			"a treatment and a control whose residues overlap",
			"State the residue to compare at, or leave the isotherms out.",
		),
	];
}
