import {
	type Comparison,
	type Difference,
	type Replicates,
	requireComparison,
} from "../compare";
import { decimalsFor, fixed, type Table, table } from "../quantity";
import { verdictSentence } from "./verdict-sentence";

function differenceCells(d: Difference): [string, string, string] {
	switch (d.is) {
		case "estimate": {
			const places = Math.max(0, decimalsFor((d.high - d.low) / 2));
			return [
				fixed(d.estimate, places),
				`${fixed(d.low, places)} to ${fixed(d.high, places)}`,
				pText(d.adjustedP),
			];
		}
		case "not available":
			return ["not available", "", ""];
		default:
			return [
				`${d.is} ${fixed(d.limit, Math.max(0, decimalsFor(Math.abs(d.limit) / 4)))}`,
				"",
				"",
			];
	}
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
			...differenceCells(v.difference),
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
