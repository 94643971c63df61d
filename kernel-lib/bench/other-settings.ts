import { settledTrial } from "./settled-trial";
import type { Trial } from "./trial";
import type { TrialOptions } from "./trial-settings";

/** The trial as it would be had its sheet been read with some settings otherwise: everything that follows is computed anew. The trial itself stays as it is. */
export function withSettings(trial: Trial, changed: TrialOptions): Trial {
	return settledTrial({
		...trial,
		settings: { ...trial.settings, ...changed },
	});
}
