import { requireTrial, type Trial } from "../bench";
import {
	plainNumber,
	type Quantity,
	type Table,
	table,
	throwProblems,
} from "../quantity";
import { compareTreatments } from "./compare-treatments";
import { shownDifference } from "./difference-places";
import { type CompareOptions, requireCompareOptions } from "./settings";
import { severalDoses } from "./several-doses";
import { residueOf, residueProblems } from "./stated-residue";

/** Places between the smallest and the largest residue that all treatments reached, as shares of the way on the logarithmic scale. */
const places = [0.1, 0.3];
/** The highest place, just inside the largest residue. */
const justInside = 0.99;

/** Residues (mg/L, two digits) spread over what all treatments reached; rounding may lift the highest out of it. */
function spreadResidues(trial: Trial): number[] {
	const { low, high } = severalDoses(trial).common;
	return [
		...places.map((share) => low ** (1 - share) * high ** share),
		justInside * high,
	]
		.map((c) => Number(c.toPrecision(2)))
		.filter((c) => c < high);
}

/**
 * The same comparison at several residues, because curves may cross: a row for each residue and treatment, each residue a comparison of its own. The residues lie between the smallest and the largest that
 * all treatments reached; the stated one is among them.
 *
 * @throws ProblemError as `compareTreatments` does
 * @example
 * const options = { margin: compare.marginOf(25), residue: compare.residueOf(2500) };
 * compare.atSeveralResidues(trial, options).columns[0] // => "residue (mg/L)"
 */
export function atSeveralResidues(
	trial: Trial,
	options: CompareOptions & {
		readonly residue: Quantity<"massConcentration">;
	},
): Table {
	requireTrial(trial);
	requireCompareOptions(options);
	throwProblems(residueProblems(options.residue));
	const stated = options.residue.in("mg/L");
	const residues = [...new Set([...spreadResidues(trial), stated])].sort(
		(a, b) => a - b,
	);
	const percent = plainNumber(
		Number((100 * (options.confidence ?? 0.95)).toPrecision(12)),
	);
	return table(
		"The same comparison at several residues",
		[
			"residue (mg/L)",
			"treatment",
			"verdict",
			`difference (mg/g), ${percent} % interval`,
		],
		residues.flatMap((c) =>
			compareTreatments(trial, {
				...options,
				residue: residueOf(c),
			}).verdicts.map((v) => [c, v.treatment, v.word, shownDifference(v)]),
		),
		[
			"Each residue is a comparison of its own: the one stated beforehand counts, not the one that looks best.",
		],
	);
}
