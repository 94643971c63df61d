/** Why a comparison says what it says, and how it was done: in groups that fold, no sentence twice. */
import { listed, quoted } from "../quantity";
import type { ReportedComparison, ReportedVerdict } from "./reported";
import { verdictText } from "./verdict-table";

export interface ReasonGroup {
	/** What the group is about. */
	readonly about: string;
	readonly texts: readonly string[];
}

function replicatesText(verdict: ReportedVerdict): string {
	const { replicates } = verdict;
	switch (replicates.is) {
		case "enough":
			return "";
		case "number":
			return `${replicates.units} independently treated portions a treatment would tell: ${replicates.because}`;
		case "at least":
			return `At least ${replicates.units} independently treated portions a treatment would be needed: ${replicates.because}`;
		case "not given":
			return replicates.because;
	}
}

/** What is said of several verdicts word for word, with the treatments that it is said of. */
function sharedReasons({
	verdicts,
}: ReportedComparison): readonly (readonly [string, readonly string[]])[] {
	const treatments = new Map<string, string[]>();
	for (const { treatment, reasons } of verdicts)
		for (const text of reasons)
			treatments.set(text, [...(treatments.get(text) ?? []), treatment]);
	return [...treatments].filter(([, own]) => own.length > 1);
}

function ownGroup(
	verdict: ReportedVerdict,
	shared: readonly string[],
): ReasonGroup {
	return {
		about: `${quoted(verdict.treatment)}, compared with ${quoted(verdict.control)}: ${verdictText(verdict)}`,
		texts: [
			...verdict.reasons.filter((text) => !shared.includes(text)),
			replicatesText(verdict),
			verdict.comparableDose,
		].filter((text) => text !== ""),
	};
}

/** The reasons verdict by verdict, what is said of several, and the method. */
export function reasonGroups(
	comparison: ReportedComparison,
): readonly ReasonGroup[] {
	const { verdicts, method } = comparison;
	const shared = sharedReasons(comparison);
	const texts = shared.map(([text]) => text);
	return [
		...verdicts.map((v) => ownGroup(v, texts)),
		{
			about: "Said of several treatments",
			texts: shared.map(
				([text, own]) =>
					`${own.length === verdicts.length ? "All" : listed(own.map(quoted))}: ${text}`,
			),
		},
		{ about: "How the treatments were compared", texts: method },
	].filter((group) => group.texts.length > 0);
}
