import { stageBalances } from "../activation";
import { isLeftOut, requireTrial, type Trial } from "../bench";
import { quoted } from "../quantity";
import { claimedUse } from "./claimed-use";
import type { RowWords } from "./hazards";
import { neverConcluded } from "./limits";

/** Words of the firings of a trial that may call for a caution, a row a firing. */
export const rowsOfFirings = ({ firings }: Trial): RowWords[] =>
	firings.map((r) => ({
		words: [
			"kiln",
			"char",
			...(r.drying.length > 0 ? ["drying oven"] : []),
			r.agent,
			r.precursor,
			...r.programme.map((s) => s.atmosphere),
		],
		texts: [r.name, r.precursorBatch, r.whatHappened, r.notes],
	}));

/**
 * What may not be concluded from the firings of a trial: where a balance is open, what washing and drying do not show, what one firing stands for, and what no such trial can show.
 * @example
 * cautions.notConcludedFromActivation(trial).some((text) => text.includes("drinking water")) // => true
 */
export function notConcludedFromActivation(trial: Trial): string[] {
	requireTrial(trial);
	const inUse = trial.firings.filter((f) => !isLeftOut(f));
	const astray = inUse.flatMap((firing) =>
		stageBalances(firing).flatMap((s) =>
			s.is === "balance" &&
			s.verdict === "does not close" &&
			s.stage !== "whole firing"
				? [
						`The yield of ${quoted(firing.name)} is not to be relied on: its ${s.stage} does not balance.`,
					]
				: [],
		),
	);
	return [
		...claimedUse(trial),
		...astray,
		"Each firing was done once: whether another firing under the same programme gives the same yield or uptake is not known from its flasks.",
		"A rinse that conducts like the water does not show that nothing is left in the char: pores give agent up late, and what is bound or hardly dissolves (zinc, phosphates) does not show in conductivity or pH at all.",
		"Dry here means that the mass no longer falls at the temperature of the oven used; water in fine pores may need more.",
		"Costs of a firing on the bench are not costs of production.",
		...neverConcluded,
	];
}
