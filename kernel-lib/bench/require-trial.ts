import { foundText, kept, problem, throwProblems } from "../quantity";
import type { Trial } from "./trial";

function isTrial(given: unknown): boolean {
	return (
		typeof given === "object" &&
		given !== null &&
		"flasks" in given &&
		Array.isArray(given.flasks) &&
		"firings" in given &&
		"settings" in given
	);
}

/**
 * The door of every step: notebooks are not compiled strictly, so that a path, a list or nothing may arrive where a trial is meant.
 * @throws ProblemError for anything but a trial
 */
export function requireTrial(given: Trial): void {
	if (isTrial(given)) return;
	const path: unknown = given;
	throwProblems([
		problem(
			"no-trial",
			{},
			foundText(given),
			"the trial that bench.readTrial returns",
			typeof path === "string"
				? `Read the sheet first: const trial = bench.readTrial(${JSON.stringify(path)});`
				: "Read a sheet with const trial = bench.readTrial(path), and give that trial.",
		),
	]);
}

/** A step of a trial: computed when it is first asked for, then kept as long as the trial. */
export function step<T>(compute: (trial: Trial) => T): (trial: Trial) => T {
	return kept((trial) => {
		requireTrial(trial);
		return compute(trial);
	});
}
