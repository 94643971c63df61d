import { withTable } from "../quantity";
import { deviationsOn, withMarks } from "./deviations";
import { frozenTrial } from "./frozen-trial";
import { whatIsNotRecorded } from "./not-recorded";
import { overview } from "./overview";
import type { Trial } from "./trial";

/** A trial whose flasks or deviations are new: every deviation as a mark on what it touches, what is not recorded looked for among what is in use, its overview with it, and all of it frozen. */
export function settledTrial(
	trial: Omit<Trial, "notRecorded" | "table">,
): Trial {
	const marked = withMarks({
		...trial,
		deviations: deviationsOn(trial.flasks, trial.deviations),
	});
	const onlyFirings = trial.sheetOrder.length === 0;
	return frozenTrial(
		withTable(
			{
				...marked,
				notRecorded: onlyFirings ? [] : whatIsNotRecorded(marked),
			},
			overview,
		),
	);
}
