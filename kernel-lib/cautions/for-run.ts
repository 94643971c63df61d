import { requireTrial, type Trial } from "../bench";
import { type Comparison, requireComparison } from "../compare";
import type { PropertySheet } from "../properties";
import { wordsOfFirings } from "./for-activation";
import { wordsOfProperties } from "./for-properties";
import { cautionTexts } from "./hazards";
import { neverConcludedOf } from "./limits";

function isPropertySheet(sheet: Trial | PropertySheet): sheet is PropertySheet {
	return (
		typeof sheet === "object" && sheet !== null && "determinations" in sheet
	);
}

function wordsOfTrial(trial: Trial): string[] {
	requireTrial(trial);
	return [
		...trial.solutions.map((s) => s.substance),
		...trial.flasks.flatMap((f) => [f.treatment, f.soakedIn, f.soak]),
		...wordsOfFirings(trial),
	];
}

/**
 * The usual cautions for the reagents and steps that a trial or a table of property readings names; the last defers to local codes and the person responsible.
 * @example
 * cautions.cautionsFor(trial).some((text) => text.startsWith("Iodine stains")) // => true
 */
export function cautionsFor(sheet: Trial | PropertySheet): string[] {
	const words = isPropertySheet(sheet)
		? wordsOfProperties(sheet)
		: wordsOfTrial(sheet);
	return cautionTexts([...new Set(["char", ...words])]);
}

/** Why no scatter was left to judge by. */
function withoutSpread({ groups }: Comparison): string {
	if (groups.every((g) => g.flasks <= 1)) return "with one flask a treatment";
	const bounds = groups.reduce((n, g) => n + g.boundFlasks.length, 0);
	const all = groups.reduce((n, g) => n + g.flasks, 0);
	return bounds > 0
		? `since ${bounds === all ? `all ${all}` : `${bounds} of ${all}`} flasks gave only a bound, not a value,`
		: "with no more flasks than treatments and days use up";
}

/**
 * What may not be concluded from a comparison: what the sheet leaves open, what the design of the trial leaves open, and what no trial of uptake can show.
 * @example
 * const compared = compare.compareTreatments(trial, { margin: compare.marginOf(25) });
 * cautions.notConcluded(compared).some((text) => text.includes("drinking water")) // => true
 */
export function notConcluded(comparison: Comparison): string[] {
	requireComparison(comparison, "cautions.notConcluded");
	const { trial } = comparison;
	const scope =
		comparison.scope === "these lots"
			? [
					"The verdicts are about these lots of char only: each treatment was done once, so that another soak or firing might come out differently.",
				]
			: comparison.scope === "measuring error only"
				? [
						`The verdicts cover the measuring error only: ${withoutSpread(comparison)} nothing is known of the spread from flask to flask or from soak to soak.`,
					]
				: [];
	return [
		...trial.setAside,
		...scope,
		...trial.notRecorded.map(
			(n) =>
				`Not recorded: ${n.what}${n.flasks.length > 0 ? ` (flask ${n.flasks.join(", ")})` : ""}; ${n.limits}.`,
		),
		...neverConcludedOf(comparison.probe),
	];
}
