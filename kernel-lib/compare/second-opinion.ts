import { isUsable } from "../bench";
import { decimalsFor, fixed, listed, type Table, table } from "../quantity";
import { type MeanDifference, manyToOne, mean, nestedModel } from "../stats";
import type { FlaskUptake } from "../uptake";
import { shownDifference } from "./difference-places";
import { requireComparison } from "./doors";
import { residueText } from "./stated-residue";
import type { Comparison } from "./verdict";

/** Uptakes (mg/g) of the flasks of each soak that gave values. */
type Soaks = readonly (readonly number[])[];

function soaksOf(flasks: readonly FlaskUptake[], treatment: string): Soaks {
	const soaks = new Map<string, number[]>();
	for (const u of flasks) {
		if (u.flask.treatment !== treatment) continue;
		const before = soaks.get(u.flask.soak);
		const value = u.uptake.quantity.in("mg/g");
		if (before) before.push(value);
		else soaks.set(u.flask.soak, [value]);
	}
	return [...soaks.values()];
}

function intervalText(low: number, estimate: number, high: number): string {
	const places = Math.max(0, decimalsFor((high - low) / 2));
	return `${fixed(estimate, places)} (${fixed(low, places)} to ${fixed(high, places)})`;
}

function textOf(d: MeanDifference | undefined): string {
	return d === undefined
		? "not available"
		: intervalText(d.low, d.estimate, d.high);
}

/** What sets this comparison apart from the textbook's, as far as the trial has it. */
function departures(
	{ at, trial }: Comparison,
	used: readonly FlaskUptake[],
	bounds: readonly FlaskUptake[],
): string[] {
	const days = new Set(used.map((u) => u.flask.day)).size;
	return [
		"Both textbook ways take the uptakes for exact numbers: the errors that flasks share (titrants, blanks, glassware), what soaks may have left, and everything else that was recorded have no part in them, so they give no word.",
		`Here all treatments are compared at one residue, ${residueText(at.residue.in("mg/L"))}; the textbook ways average uptakes over whatever residues the flasks had.`,
		...(days > 1
			? [
					`The flasks stood on ${days} days; only the comparison here takes the days off.`,
				]
			: []),
		...(bounds.length > 0
			? [
					`Flasks that gave only a bound have no place in the textbook ways: ${listed(bounds.map((u) => u.flask.name))}.`,
				]
			: []),
		...trial.setAside,
	];
}

/**
 * The same differences by two plain textbook ways beside those of the comparison, so that a reader sees where ours departs and why: Dunnett's comparison of the means of soaks, and a mixed model of
 * flasks within soaks. Both are computed from the uptakes alone, with nothing of this comparison; their intervals hold for all treatments together.
 *
 * @throws ProblemError for what is not a comparison
 * @example
 * const compared = compare.compareTreatments(trial, { margin: compare.marginOf(25) });
 * compare.secondOpinionTable(compared).rows.length // => 4
 */
export function secondOpinionTable(comparison: Comparison): Table {
	requireComparison(comparison, "compare.secondOpinionTable");
	const usable = comparison.flasks.filter((u) => isUsable(u.flask));
	const used = usable.filter((u) => u.uptake.is === "value");
	const bounds = usable.filter((u) => u.uptake.is !== "value");
	const treatments = [...new Set(used.map((u) => u.flask.treatment))];
	const soaks = treatments.map((t) => soaksOf(used, t));
	const judged = comparison.verdicts.filter(
		(v) => treatments.includes(v.treatment) && treatments.includes(v.control),
	);
	const pairs = judged.map((v) => ({
		treated: treatments.indexOf(v.treatment),
		control: treatments.indexOf(v.control),
	}));
	const { confidence } = comparison;
	const dunnett = manyToOne(
		soaks.map((s) => s.map((values) => mean(values))),
		pairs,
		confidence,
	);
	const mixed = nestedModel(soaks, pairs, confidence);
	return table(
		"A second opinion: the same differences by textbook ways (mg/g)",
		[
			"treatment",
			"control",
			"soaks (treated, control)",
			"here",
			"means of soaks (Dunnett)",
			"adjusted p (Dunnett)",
			"flasks within soaks (mixed model)",
		],
		comparison.verdicts.map((v) => {
			const i = judged.indexOf(v);
			const own =
				dunnett.is === "differences" ? dunnett.differences[i] : undefined;
			const counts = [v.treatment, v.control].map(
				(t) => soaks[treatments.indexOf(t)]?.length ?? 0,
			);
			return [
				v.treatment,
				v.control === "" ? "none named" : v.control,
				counts.join(", "),
				shownDifference(v),
				textOf(own),
				own === undefined ? "" : Number(own.adjustedP.toPrecision(2)),
				textOf(mixed.is === "fitted" ? mixed.differences[i] : undefined),
			];
		}),
		[
			...(dunnett.is === "differences"
				? []
				: [
						"No treatment has two soaks that differ: the textbook ways have nothing to judge scatter by.",
					]),
			...departures(comparison, used, bounds),
		],
	);
}
