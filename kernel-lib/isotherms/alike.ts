import { listed, type Problem, problem, throwProblems } from "../quantity";
import type { IsothermPoints } from "./points";

type Known = Pick<IsothermPoints, "probe" | "file" | "hash">;

/**
 * The door of what sets isotherms beside each other: mg of one probe say nothing of mg of another, and flasks of two trials share neither solutions nor days. Typed-in points belong to no trial and go with any.
 * @throws ProblemError for points of two probes or of two trials
 */
export function requireAlike(sets: readonly Known[], of: string): void {
	throwProblems([...severalProbes(sets, of), ...severalTrials(sets, of)]);
}

function severalProbes(sets: readonly Known[], of: string): Problem[] {
	const probes = [...new Set(sets.map((s) => s.probe))].filter((p) => p !== "");
	return probes.length < 2
		? []
		: [
				problem(
					"several-probes",
					{ call: of },
					`isotherms of ${listed(probes)} together`,
					"isotherms of one probe",
					"Call it once for each probe.",
				),
			];
}

function severalTrials(sets: readonly Known[], of: string): Problem[] {
	const trials = new Map(sets.map((s) => [`${s.file} ${s.hash}`, s]));
	const read = [...trials.values()].filter((s) => s.hash !== "");
	return read.length < 2
		? []
		: [
				problem(
					"several-trials",
					{ call: of },
					`isotherms of ${read.length} trials together: ${listed(read.map((s) => `${s.file} (content ${s.hash.slice(0, 8)})`))}`,
					"isotherms of one trial",
					"Call it once for each trial; flasks that belong together stand on one sheet.",
				),
			];
}
