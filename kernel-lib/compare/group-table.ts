import { decimalsFor, fixed, type Table, table } from "../quantity";
import { requireComparison } from "./doors";
import type { Comparison } from "./verdict";

/**
 * The groups that were compared, a row for each treatment: units, flasks, the mean uptake (mg/g) at the residue of the comparison with its own interval, and the mean residue (mg/L) that its flasks left.
 *
 * @throws ProblemError for what is not a comparison
 * @example
 * const compared = compare.compareTreatments(trial, { margin: compare.marginOf(25) });
 * compare.groupTable(compared).title // => "Groups"
 */
export function groupTable(comparison: Comparison): Table {
	requireComparison(comparison, "compare.groupTable");
	const unit = comparison.scope === "treatment" ? "soaks" : "flasks as units";
	return table(
		"Groups",
		[
			"treatment",
			unit,
			"flasks",
			"mean uptake (mg/g)",
			"interval of the mean (mg/g)",
			"at a residue of (mg/L)",
			"mean residue left (mg/L)",
			"flasks with a bound",
		],
		comparison.groups.map((g) => {
			const places = Math.max(0, decimalsFor((g.high - g.low) / 2));
			return [
				g.treatment,
				g.units,
				g.flasks,
				`${g.is === "value" ? "" : `${g.is} `}${fixed(g.mean, places)}`,
				`${fixed(g.low, places)} to ${fixed(g.high, places)}`,
				Number(g.residue.toPrecision(4)),
				Number(g.left.toPrecision(4)),
				g.boundFlasks.join(", "),
			];
		}),
		[
			"The intervals are each group's own, scatter and shared errors together: overlap of two of them does not judge their difference.",
		],
	);
}
