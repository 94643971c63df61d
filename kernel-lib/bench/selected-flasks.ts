import { didYouMean, type Problem, problem, throwProblems } from "../quantity";
import type { DataFrame } from "./data-frame";
import { settledTrial } from "./settled-trial";
import type { Trial } from "./trial";

/** The names in the column "flask" of a frame, or those of a list. */
function namesOf(flasks: DataFrame | readonly string[]): readonly string[] {
	if (Array.isArray(flasks)) return flasks;
	const frame = flasks as DataFrame;
	if (!frame.columns?.includes("flask"))
		throwProblems([
			problem(
				"frame-without-flasks",
				{ column: "flask" },
				`a frame with the columns ${(frame.columns ?? []).map((c) => `"${c}"`).join(", ") || "none"}`,
				'a column "flask" with the names of the flasks to go on with',
				"Filter the rows of bench.flaskFrame(trial) or uptake.uptakeFrame(trial), and keep that column.",
			),
		]);
	return (frame.flask.values as unknown[]).map(String);
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
 * @param flasks a frame with a column "flask", or names
 * @throws ProblemError for a frame without that column, for names that the trial does not have, and for no flask at all
 * @example
 * bench.selectFlasks(trial, [trial.flasks.filter((f) => f.contents === "char")[0].name]).flasks.filter((f) => f.contents === "char").length // => 1
 */
export function selectFlasks(
	trial: Trial,
	flasks: DataFrame | readonly string[],
): Trial {
	const names = namesOf(flasks);
	throwProblems(problemsOf(trial, names));
	const selected = new Set(names);
	const kept = trial.flasks.filter(
		(f) => f.contents !== "char" || selected.has(f.name),
	);
	const out = trial.flasks.length - kept.length;
	if (out === 0) return trial;
	const chars = trial.flasks.filter((f) => f.contents === "char").length;
	return settledTrial({
		...trial,
		flasks: kept,
		setAside: [
			...trial.setAside,
			`${chars - out} of ${chars} flasks with char were selected by hand; the other ${out} play no part in this result.`,
		],
	});
}
