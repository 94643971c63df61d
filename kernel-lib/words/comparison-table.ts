import {
	type Comparison,
	differencePlaces,
	type Replicates,
	requireComparison,
	shownDifference,
	type TreatmentVerdict,
} from "../compare";
import { fixed, type Table, table } from "../quantity";
import { verdictSentence } from "./verdict-sentence";

function differenceCells(v: TreatmentVerdict): [string, string, string] {
	const { difference: d } = v;
	if (d.is !== "estimate") return [shownDifference(v), "", ""];
	const text = (value: number): string => fixed(value, differencePlaces(v));
	return [
		text(d.estimate),
		`${text(d.low)} to ${text(d.high)}`,
		pText(d.adjustedP),
	];
}

function pText(p: number): string {
	return p < 0.0001 ? "below 0.0001" : p.toPrecision(2);
}

function replicatesCell(r: Replicates): string {
	switch (r.is) {
		case "enough":
			return "decided";
		case "number":
			return String(r.units);
		case "at least":
			return `at least ${r.units}`;
		case "not given":
			return "not given";
	}
}

/**
 * The verdicts, a row for each treatment, with the sentence of each below.
 * @example
 * words.comparisonTable(compare.compareTreatments(trial, { margin: compare.marginOf(25) })).title // => "Each treatment against its control"
 */
export function comparisonTable(comparison: Comparison): Table {
	requireComparison(comparison, "words.comparisonTable");
	return table(
		"Each treatment against its control",
		[
			"treatment",
			"control",
			"verdict",
			"difference (mg/g)",
			"simultaneous interval (mg/g)",
			"adjusted p",
			"surely beyond the margin",
			"units that would tell",
			"with deviations kept",
			"with deviations left out",
		],
		comparison.verdicts.map((v) => [
			v.treatment,
			v.control === "" ? "none named" : v.control,
			v.word,
			...differenceCells(v),
			v.margin.is === "not known"
				? "no margin"
				: v.exceedsMargin
					? "yes"
					: "no",
			replicatesCell(v.replicates),
			v.withDeviations,
			v.withoutDeviations,
		]),
		comparison.verdicts.map((v) => verdictSentence(comparison, v)),
	);
}
