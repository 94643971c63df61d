import type { Observation } from "./observations";
import type { Obstacle } from "./obstacles";
import type { Pair } from "./pairs";
import type { VerdictScope } from "./verdict";

interface Soaks {
	readonly flasks: number;
	readonly soaks: number;
}

function soaksOf(list: readonly Observation[], treatment: string): Soaks {
	const own = list.filter((o) => o.treatment === treatment);
	return {
		flasks: own.length,
		soaks: new Set(own.map((o) => o.flask.flask.soak)).size,
	};
}

/**
 * What verdicts at a stated residue are about. Where every flask had a soak (or firing) of its own, the scatter about the curve holds what differs from soak to soak: the treatment. Where each treatment was
 * soaked once, or soaks are not recorded: these lots.
 */
export function curveScope(
	list: readonly Observation[],
	treatments: readonly string[],
): Extract<VerdictScope, "treatment" | "these lots"> {
	return treatments.length > 0 &&
		treatments.every((t) => {
			const { soaks, flasks } = soaksOf(list, t);
			return soaks === flasks;
		})
		? "treatment"
		: "these lots";
}

/** Treatments of a pair with several soaks and several flasks a soak, fitted as one curve: flasks of one soak would pass for independent. */
export function mixedSoaks(list: readonly Observation[], pair: Pair): string[] {
	return [pair.treatment, pair.control].filter((t) => {
		const { soaks, flasks } = soaksOf(list, t);
		return soaks > 1 && soaks < flasks;
	});
}

export function soakObstacle(treatment: string): Obstacle {
	return {
		headline: `soaks and doses of "${treatment}" are mixed up`,
		reason: `"${treatment}" had several soaks with several flasks each, and one isotherm through all of them: flasks of one soak are not independent, so that its scatter is no measure. Give every flask a soak of its own, or compare one soak of each treatment.`,
		comparableDose: "",
	};
}
