import type { Trial } from "../bench";
import { compareAtOwnResidues } from "./at-own-residues";
import { compareAtStatedResidue } from "./at-stated-residue";
import { portionsOf } from "./portions";
import { type CompareOptions, requireCompareOptions } from "./settings";
import { severalDoses } from "./several-doses";
import { residueOf } from "./stated-residue";
import type { Comparison } from "./verdict";

/**
 * Treatments of a trial against their controls: a verdict of four words for each, with simultaneous intervals (Dunnett's kind, for any correlation), the rules of comparability, what may have consumed iodine,
 * and the same with and without what deviations touched. A trial with several doses a treatment is compared at one stated residue, on an isotherm each; one with a single dose at the residues that its flasks
 * happen to have (`at` of the result says which).
 *
 * @param options the margin, and optional the stated residue, isotherms to choose from, confidence, a spread from experience
 * @throws ProblemError for options that it does not have or cannot take, and for a trial that cannot be compared at all (no flasks, no treatment, a control that is not there); all problems at once
 */
export function compareTreatments(
	trial: Trial,
	options: CompareOptions,
): Comparison {
	requireCompareOptions(options);
	const doses = severalDoses(trial);
	const portions = portionsOf(trial);
	if (!doses.holds && options.isotherms === undefined)
		return compareAtOwnResidues(portions, options);
	return compareAtStatedResidue(portions, {
		...options,
		residue: options.residue ?? residueOf(doses.common.middle),
	});
}
