import { shownDifference } from "./judgement";
import { type Telling, verdictReasons, verdictSentence } from "./sentences";
import type { TreatmentVerdict } from "./verdict";

/** What the two ways of comparing do not have in common. */
interface Beside {
	/** Of the simultaneous intervals. */
	readonly degreesOfFreedom: number;
	readonly adjustedPs: readonly number[];
	/** Further reasons, after the usual ones. */
	readonly reasons: readonly string[];
	/** Dose that would make the residues comparable, in words; "" where they are. */
	readonly comparableDose: string;
}

/** A verdict as a comparison reports it: the word, its sentence and reasons, the difference, the word with and without what deviations touched. */
export function toldVerdict(
	telling: Telling,
	beside: Beside,
): TreatmentVerdict {
	const { judgement, replicates } = telling;
	return {
		...judgement.pair,
		word: judgement.word,
		sentence: verdictSentence(telling),
		reasons: [...verdictReasons(telling), ...beside.reasons],
		difference: shownDifference(
			judgement,
			telling.list,
			beside.degreesOfFreedom,
			beside.adjustedPs,
		),
		exceedsMargin: judgement.exceedsMargin,
		replicates,
		comparableDose: beside.comparableDose,
		withoutDeviations: telling.leftOut,
		withDeviations: telling.kept,
	};
}
