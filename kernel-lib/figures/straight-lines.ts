import type { IsothermFit, Repeats, StraightLine } from "../isotherms";
import {
	type ResultKind,
	refuse,
	requireResult,
	requireResults,
} from "../quantity";
import type { Figure } from "./description";
import {
	type EstimatesOptions,
	estimatesAgainstTruth,
} from "./estimates-against-truth";
import { straightLineAxes, straightLineForms } from "./straight-line-forms";

const lineKind: ResultKind = {
	parts: ["form", "across", "up"],
	expected:
		"a straight line, one of isotherms.straightLines(points), or what isotherms.repeatTrial(points) returns",
};

function isRepeats(given: unknown): given is Repeats {
	return typeof given === "object" && given !== null && "ways" in given;
}

/** Repeats by what they were made with. */
function areRepeats(
	given: unknown,
): given is Readonly<Record<string, Repeats>> {
	return (
		typeof given === "object" &&
		given !== null &&
		!Array.isArray(given) &&
		Object.keys(given).length > 0 &&
		Object.values(given).every(isRepeats)
	);
}

function isFit(given: unknown): given is IsothermFit {
	return typeof given === "object" && given !== null && "isotherm" in given;
}

/**
 * What straight lines do to an isotherm. Of one line: the form on its own axes, as it is drawn by hand, with the points and the line of least squares. Of lines and the fit to the same points: the forms drawn back where the data live, uptake
 * against residue, beside the curve that was fitted to the data as they are; forms of other isotherms are left aside, and forms that give no isotherm at all are named below. Of repeats, or of several by what they were made with: the plateaus that each way found, against
 * the one that was put in, with how often the way's own interval held it.
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
	repeats: Repeats | Readonly<Record<string, Repeats>>,
	options?: EstimatesOptions,
): Figure;
export function straightLines(
	shown:
		| StraightLine
		| readonly StraightLine[]
		| Repeats
		| Readonly<Record<string, Repeats>>,
	beside: IsothermFit | EstimatesOptions = {},
): Figure {
	if (isRepeats(shown))
		return estimatesAgainstTruth([["", shown]], beside as EstimatesOptions);
	if (areRepeats(shown))
		return estimatesAgainstTruth(
			Object.entries(shown),
			beside as EstimatesOptions,
		);
	if (!Array.isArray(shown)) {
		requireResult(shown, lineKind, "figures.straightLines");
		return straightLineAxes(shown as StraightLine);
	}
	requireResults(shown, lineKind, "figures.straightLines");
	if (!isFit(beside))
		return refuse(
			"no-fit-beside",
			"figures.straightLines",
			"several straight lines and no fit",
			"one line, or lines with the fit to the same points",
			"Give the fit too: figures.straightLines(lines, fit).",
		);
	return straightLineForms(shown, beside);
}
