import { kept, problem, quoted, throwProblems } from "../quantity";
import { isLeftOut } from "./deviations";
import type { Firing } from "./firing";
import type { Mark } from "./mark";
import { requireTrial } from "./require-trial";
import type { Trial } from "./trial";

const usable = kept((trial: Trial): readonly Firing[] =>
	trial.firings.filter((f) => !isLeftOut(f)),
);

/**
 * The firings that no deviation leaves out; their rinses and weighings carry marks of their own.
 * @throws ProblemError where the trial has no firing at all, with what to write
 */
export function firingsInUse(trial: Trial): readonly Firing[] {
	requireTrial(trial);
	if (trial.firings.length === 0)
		throwProblems([
			problem(
				"no-firing",
				{ file: trial.file, sheet: "activation" },
				"no firing",
				`a table "activation" with a row for each firing (a sheet of that name, or ${trial.file.replace(/(\.[^.]*)?$/, ".activation$1")} beside it)`,
				'Write a line for each firing, at least under the heads "firing" and "precursor mass (g)"; bench.columnGuide() lists them all.',
			),
		]);
	return usable(trial);
}

/** What deviations touched among the firings and how it is handled, a sentence each. */
export function firingDeviations(trial: Trial): string[] {
	const sentences = (of: string, marks: readonly Mark[]): string[] =>
		marks.map(
			({ handling, whatHappened }) =>
				`${handling === "keep" ? "Kept in spite of a deviation" : "Left out"}: ${of} (${whatHappened}).`,
		);
	return trial.firings.flatMap((f) => [
		...sentences(quoted(f.name), f.marks),
		...f.rinses.flatMap((r) =>
			sentences(
				`what was read on rinse ${r.number} of ${quoted(f.name)}`,
				r.marks,
			),
		),
		...f.drying.flatMap((w) =>
			sentences(
				`weighing ${w.number} of the drying of ${quoted(f.name)}`,
				w.marks,
			),
		),
	]);
}
