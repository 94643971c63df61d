import { requireTrial, type Trial } from "../bench";
import { type Comparison, requireComparison } from "../compare";
import type { PropertySheet } from "../properties";
import { substancesIn } from "../substances";
import { claimedUse } from "./claimed-use";
import { rowsOfFirings } from "./for-activation";
import { wordsOfProperties } from "./for-properties";
import { cautionTexts, type RowWords } from "./hazards";
import { neverConcludedOf } from "./limits";

function isPropertySheet(sheet: Trial | PropertySheet): sheet is PropertySheet {
	return (
		typeof sheet === "object" && sheet !== null && "determinations" in sheet
	);
}

/** Everything that a trial writes down, a row of the sheet each. */
function rowsOfTrial(trial: Trial): RowWords[] {
	requireTrial(trial);
	return [
		...trial.solutions.map((s) => ({
			words: [s.substance],
			texts: [s.name, s.notes],
		})),
		...trial.flasks.map((f) => ({
			words: [
				f.contents === "char" ? "char" : "",
				f.treatment,
				f.soakedIn,
				f.soak,
			],
			texts: [f.sample, f.notes, ...Object.values(f.extra)],
		})),
		// Boiling in acid, by the standard of the iodine number, is boiling in this one, and no matter of a kiln.
		...(trial.flasks.some((f) => f.acidBoiled === "yes")
			? [{ words: ["hydrochloric acid"], texts: [] }]
			: []),
		// The name of a batch ("kiln 3") says what it came from, not what was done with the flask's char.
		...trial.flasks.map((f) => ({ words: [], texts: [f.charBatch] })),
		...rowsOfFirings(trial),
		...trial.deviations.map((d) => ({ words: [], texts: [d.whatHappened] })),
	];
}

/** What a trial works with and the list does not know. */
function unknownOf(trial: Trial): string[] {
	const said = [
		...trial.solutions.map((s) => s.substance),
		...trial.flasks.map((f) => f.soakedIn),
		...trial.firings.map((f) => f.agent),
	];
	return [
		...new Set(
			said
				.flatMap((text) => substancesIn(text))
				.flatMap((s) => (s.is === "known" ? [] : [s.written])),
		),
	];
}

/**
 * The usual cautions for the reagents and steps that a trial or a table of property readings names, in every field and note: first what must not be done, last that local codes and the person responsible come first. A
 * substance that is on no list is to be looked up.
 * @example
 * cautions.cautionsFor(trial).some((text) => text.startsWith("Danger, iodine: ")) // => true
 */
export function cautionsFor(sheet: Trial | PropertySheet): string[] {
	return cautionTexts(
		isPropertySheet(sheet)
			? {
					rows: [
						{
							words: ["char", ...wordsOfProperties(sheet)],
							texts: [
								...sheet.samples,
								...sheet.deviations,
								...sheet.determinations.map((d) => d.notes),
							],
						},
					],
					unknown: [],
				}
			: {
					rows: rowsOfTrial(sheet),
					unknown: unknownOf(sheet),
				},
	);
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

/** Of very many differences the intervals are a bound. */
function withBounds({ method: { simultaneous } }: Comparison): string[] {
	return simultaneous.are === "bound"
		? [
				`The intervals of the ${simultaneous.pairs.length} differences are a bound: wider than need be by about 1 % as a rule (4 % at the worst seen), never too narrow. A "cannot tell" that hangs by so little may be owed to that.`,
			]
		: [];
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
		...claimedUse(trial),
		...trial.setAside,
		...scope,
		...withBounds(comparison),
		...trial.notRecorded.map(
			(n) =>
				`Not recorded: ${n.what}${n.flasks.length > 0 ? ` (flask ${n.flasks.join(", ")})` : ""}; ${n.limits}.`,
		),
		...neverConcludedOf(comparison.probe),
	];
}
