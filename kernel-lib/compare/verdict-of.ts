import { withTable } from "../quantity";
import { differenceTable } from "./difference-table";
import { type Judgement, reckonedOf, shownDifference } from "./judgement";
import type { Observation } from "./observations";
import type { Ways } from "./portions";
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

/** Several ways of handling the deviations, judged: pair by pair in one order. */
interface Judged {
	readonly observations: { readonly list: readonly Observation[] };
	readonly judgements: readonly Judgement[];
}

/**
 * The verdicts of a comparison, with the words that the other ways of handling the deviations give.
 *
 * @param units of a treatment that gave values
 * @param replicates what would tell, for each pair
 * @param adjustedPs of the family of simultaneous intervals, in its order
 */
export function verdictsOf(
	{ main, kept, leftOut }: Ways<Judged>,
	units: (treatment: string) => number,
	replicates: readonly Replicates[],
	adjustedPs: readonly number[],
): TreatmentVerdict[] {
	return main.judgements.map((judgement, i) =>
		verdictOf(judgement, {
			list: main.observations.list,
			units: {
				treated: units(judgement.pair.treatment),
				control: units(judgement.pair.control),
			},
			replicates: replicates[i],
			kept: kept.judgements[i].word,
			leftOut: leftOut.judgements[i].word,
			adjustedPs,
		}),
	);
}

/** A verdict as a comparison reports it: the word, what forbids others, the difference, the word with and without what deviations touched. */
function verdictOf(j: Judgement, beside: Beside): TreatmentVerdict {
	const { list, adjustedPs } = beside;
	const difference = shownDifference(j, list, adjustedPs);
	const verdict: Omit<TreatmentVerdict, "working"> = {
		...j.pair,
		word: j.word,
		numbersSay: j.numbersSay,
		obstacles: j.obstacles,
		audited: j.audited,
		difference,
		reckoned:
			difference.is === "not available" ? { is: "nothing" } : reckonedOf(j),
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
	return withTable(verdict, () => differenceTable(verdict, list), "working");
}
