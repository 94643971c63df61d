import { doorFor, type ResultKind } from "../quantity";

/** What a comparison is known by. */
export const comparisonKind: ResultKind = {
	parts: ["verdicts", "groups", "margin"],
	expected:
		"a comparison, as compare.compareTreatments(trial, { margin }) returns it",
};

export const requireComparison = doorFor(comparisonKind);

export const requireVerdict = doorFor({
	parts: ["treatment", "word", "difference", "obstacles"],
	expected:
		"one of the verdicts of the comparison, such as comparison.verdicts[0]",
});
