import { type Judgement, shownDifference } from "./judgement";
import type { Observation } from "./observations";
import type { Replicates, TreatmentVerdict, VerdictWord } from "./verdict";

/** What stands beside the judgement of one pair. */
interface Beside {
	readonly list: readonly Observation[];
	readonly units: TreatmentVerdict["units"];
	readonly replicates: Replicates;
	/** Words with the deviating flasks kept and left out. */
	readonly kept: VerdictWord;
	readonly leftOut: VerdictWord;
	readonly adjustedPs: readonly number[];
}

/** A verdict as a comparison reports it: the word, what forbids others, the difference, the word with and without what deviations touched. */
export function verdictOf(j: Judgement, beside: Beside): TreatmentVerdict {
	const { list, adjustedPs } = beside;
	return {
		...j.pair,
		word: j.word,
		numbersSay: j.numbersSay,
		obstacles: j.obstacles,
		audited: j.audited,
		difference: shownDifference(j, list, adjustedPs),
		soakAllowance: j.allowance,
		otherwise: j.otherwise,
		margin: j.margin,
		ground: j.ground,
		exceedsMargin: j.exceedsMargin,
		residues: j.residues,
		units: beside.units,
		replicates: beside.replicates,
		withoutDeviations: beside.leftOut,
		withDeviations: beside.kept,
	};
}
