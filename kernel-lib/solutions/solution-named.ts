import { isLeftOut, type Solution, type Trial } from "../bench";
import { problem, quoted, throwProblems } from "../quantity";

/**
 * The row of a solution.
 * @throws ProblemError for a name that the sheet does not have, or a solution that a deviation leaves out
 */
export function solutionNamed(trial: Trial, name: string): Solution {
	const solution = trial.solutions.find((s) => s.name === name);
	if (solution === undefined)
		throwProblems([
			problem(
				"solution-unknown",
				{ file: trial.file, sheet: "solutions" },
				`no solution ${quoted(name)}`,
				`one of ${trial.solutions.map((s) => quoted(s.name)).join(", ") || "none"}`,
				"Add it to the solutions or mend the name.",
			),
		]);
	const found = solution as Solution;
	if (isLeftOut(found))
		throwProblems([
			problem(
				"solution-left-out",
				found.place,
				`the solution ${quoted(name)}, which a deviation leaves out (${found.marks.map((m) => m.whatHappened).join("; ")})`,
				"a solution that is kept",
				"Leave out what was dosed or titrated with it too, or keep it in the deviations table.",
			),
		]);
	return found;
}
