import { requireTrial, type Trial } from "../bench";
import { type Problem, problem, throwProblems } from "../quantity";
import { compareAtOwnResidues } from "./at-own-residues";
import { compareAtStatedResidue } from "./at-stated-residue";
import { portionsOf } from "./portions";
import { missingDoses } from "./require-doses";
import { type CompareOptions, requireCompareOptions } from "./settings";
import { type SeveralDoses, severalDoses } from "./several-doses";
import { residueOf } from "./stated-residue";
import type { Comparison } from "./verdict";

/**
 * Treatments of a trial against their controls: a verdict of four words for each, with simultaneous intervals (Dunnett's kind, for any correlation), the rules of comparability, what may have consumed iodine,
 * and the same with and without what deviations touched. A trial with several doses a treatment is compared at one stated residue, on an isotherm each; one with a single dose at the residues that its flasks
 * happen to have (`at` of the result says which).
 *
 * @param options the margin, and optional the stated residue, isotherms to choose from, confidence, a spread from experience
 * @throws ProblemError for options that it does not have or cannot take, for a stated residue or isotherms where the doses are too few, and for a trial that cannot be compared at all (no flasks, no treatment, a
 * control that is not there); all problems at once
 */
export function compareTreatments(
	trial: Trial,
	options: CompareOptions,
): Comparison {
	requireTrial(trial);
	requireCompareOptions(options);
	const doses = severalDoses(trial);
	const portions = portionsOf(trial);
	const asksForCurves =
		options.residue !== undefined || options.isotherms !== undefined;
	if (!doses.holds && !asksForCurves)
		return compareAtOwnResidues(portions, options);
	throwProblems(withoutCurves(doses, options));
	return compareAtStatedResidue(portions, {
		...options,
		residue: options.residue ?? residueOf(doses.common.middle),
	});
}

/** Why a comparison on isotherms was asked for and cannot be had; a residue or a curve that was stated is never passed over in silence. */
function withoutCurves(
	doses: SeveralDoses,
	options: CompareOptions,
): Problem[] {
	if (doses.holds || doses.treatments.length === 0) return [];
	const missing = missingDoses(doses);
	if (missing.length > 0 || options.residue !== undefined) return missing;
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
