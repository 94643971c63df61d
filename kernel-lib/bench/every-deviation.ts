import type { Handling } from "./mark";
import { settledTrial } from "./settled-trial";
import type { Trial } from "./trial";

/**
 * The trial as if every deviation were handled in one way: with all that went wrong kept, or with all of it left out. The trial itself stays as it is.
 * @example
 * bench.withEveryDeviation(trial, "keep").deviations.every((d) => d.handling === "keep") // => true
 */
export function withEveryDeviation(trial: Trial, handling: Handling): Trial {
	return trial.deviations.every((d) => d.handling === handling)
		? trial
		: settledTrial({
				...trial,
				deviations: trial.deviations.map((d) => ({ ...d, handling })),
			});
}
