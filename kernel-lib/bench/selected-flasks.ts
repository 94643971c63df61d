import {
	didYouMean,
	type Problem,
	problem,
	requireResult,
	throwProblems,
} from "../quantity";
import type { DataFrame } from "./data-frame";
import { firingKey } from "./firing-names";
import { isOfAnother } from "./frame-of-trial";
import { requireTrial } from "./require-trial";
import { settledTrial } from "./settled-trial";
import type { Trial } from "./trial";

/** The flasks with char that go with some firings: those of the other firings (by their soak where it names a firing, else by their char batch) go; flasks of no firing stay. */
function flasksOfFirings(
	trial: Trial,
	firings: readonly string[],
): readonly string[] {
	const every = new Set(trial.firings.map((f) => firingKey(f.name)));
	const selected = new Set(firings.map(firingKey));
	return trial.flasks
		.filter((f) => f.contents === "char")
		.filter(({ soak, charBatch }) => {
			const own = firingKey(every.has(firingKey(soak)) ? soak : charBatch);
			return !every.has(own) || selected.has(own);
		})
		.map((f) => f.name);
}

/** The names in the column "flask" of a frame, those that go with the firings in its column "firing", or those of a list. */
function namesOf(
	trial: Trial,
	flasks: DataFrame | readonly string[],
): readonly string[] {
	if (Array.isArray(flasks)) return flasks;
	requireResult(
		flasks,
		{
			parts: [],
			expected: "a frame of this trial, or a list of names of its flasks",
		},
		"selectFlasks",
	);
	const frame = flasks as DataFrame;
	throwProblems(
		isOfAnother(trial, frame)
			? [
					problem(
						"frame-of-another-trial",
						{ file: trial.file },
						"a frame that was made of another trial",
						"a frame of this trial: flasks of two trials may have the same names",
						"Make it of the trial that you go on with: bench.flaskFrame(trial) or uptake.uptakeFrame(trial).",
					),
				]
			: [],
	);
	const entries = (column: string): string[] =>
		(frame[column].values as unknown[]).map(String);
	if (frame.columns?.includes("flask")) return entries("flask");
	if (frame.columns?.includes("firing"))
		return flasksOfFirings(trial, entries("firing"));
	throwProblems([
		problem(
			"frame-without-flasks",
			{ column: "flask" },
			`a frame with the columns ${(frame.columns ?? []).map((c) => `"${c}"`).join(", ") || "none"}`,
			'a column "flask" with the names of the flasks to go on with, or "firing" with those of the firings',
			"Filter the rows of bench.flaskFrame(trial), uptake.uptakeFrame(trial) or bench.firingFrame(trial), and keep that column.",
		),
	]);
	return [];
}

function problemsOf(trial: Trial, names: readonly string[]): Problem[] {
	const known = trial.flasks.map((f) => f.name);
	const unknown = names.filter((n) => !known.includes(n));
	if (names.length === 0)
		return [
			problem(
				"no-flask-selected",
				{ column: "flask" },
				"no flask at all",
				"at least one flask to go on with",
				"Loosen the filter.",
			),
		];
	return unknown.map((name) =>
		problem(
			"flask-not-found",
			{ file: trial.file, column: "flask" },
			`a flask "${name}", which the trial does not have`,
			"names of flasks of this trial",
			didYouMean(name, known),
		),
	);
}

/**
 * The trial with some of its flasks with char only: those that a filtered frame (or a list of names) holds. Blanks and leachates stay. Everything that follows is computed from these flasks, and the trial says in
 * `setAside` how many it goes without. The trial itself stays as it is.
 *
 * @param flasks a frame with a column "flask", or with a column "firing" (the flasks of the other firings go), or names of flasks
 * @throws ProblemError for a frame of another trial or without that column, for names that the trial does not have, and for no flask at all
 * @example
 * bench.selectFlasks(trial, [trial.flasks.filter((f) => f.contents === "char")[0].name]).flasks.filter((f) => f.contents === "char").length // => 1
 */
export function selectFlasks(
	trial: Trial,
	flasks: DataFrame | readonly string[],
): Trial {
	requireTrial(trial);
	const names = namesOf(trial, flasks);
	const chars = trial.flasks.filter((f) => f.contents === "char").length;
	if (chars === 0 && names.length === 0) return trial;
	throwProblems(problemsOf(trial, names));
	const selected = new Set(names);
	const kept = trial.flasks.filter(
		(f) => f.contents !== "char" || selected.has(f.name),
	);
	const out = trial.flasks.length - kept.length;
	if (out === 0) return trial;
	return settledTrial({
		...trial,
		flasks: kept,
		setAside: [
			...trial.setAside,
			`${chars - out} of ${chars} flasks with char were selected by hand; the other ${out} play no part in this result.`,
		],
	});
}
