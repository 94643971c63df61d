import type { IsothermFit, Repeats, StraightLine } from "../isotherms";
import { refuse } from "../quantity";
import type { Figure } from "./description";
import {
	type EstimatesOptions,
	estimatesAgainstTruth,
} from "./estimates-against-truth";
import { straightLineAxes, straightLineForms } from "./straight-line-forms";

/**
 * What straight lines do to an isotherm. Of one line: the form on its own axes, as it is drawn by hand, with the points and the line of least squares. Of lines and the fit to the same points: the forms drawn back where the data live, uptake
 * against residue, beside the curve that was fitted to the data as they are; forms of other isotherms are left aside, and forms that give no isotherm at all are named below. Of repeats: the plateaus that each way found, against the one that was put in, with
 * how often the way's own interval held it.
 *
 * @throws ProblemError for options that it does not have, and for lines without a fit
 * @example
 * const [points] = isotherms.isothermPoints(isothermTrial);
 * const lines = isotherms.straightLines(points);
 * const fit = isotherms.fitIsotherm(isotherms.langmuir, points);
 * figures.straightLines(lines[0]).title // => "Langmuir as a straight line: C/q against C"
 * figures.straightLines(lines, fit).title // => "Langmuir by straight-line forms, drawn where the data live"
 * figures.straightLines(isotherms.repeatTrial(points, { trials: 20 })).title // => "What each way makes of the same trials"
 */
export function straightLines(line: StraightLine): Figure;
export function straightLines(
	lines: readonly StraightLine[],
	fit: IsothermFit,
): Figure;
export function straightLines(
	repeats: Repeats,
	options?: EstimatesOptions,
): Figure;
export function straightLines(
	shown: StraightLine | readonly StraightLine[] | Repeats,
	beside: IsothermFit | EstimatesOptions = {},
): Figure {
	if ("ways" in shown)
		return estimatesAgainstTruth(shown, beside as EstimatesOptions);
	if ("form" in shown) return straightLineAxes(shown);
	if (!("isotherm" in beside))
		return refuse(
			"no-fit-beside",
			"figures.straightLines",
			"several straight lines and no fit",
			"one line, or lines with the fit to the same points",
			"Give the fit too: figures.straightLines(lines, fit).",
		);
	return straightLineForms(shown, beside);
}
