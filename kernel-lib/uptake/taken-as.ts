import type { Flask } from "../bench";
import type { Recovery } from "./recovery";

/**
 * What nobody measured and the uncertainty of an uptake takes from a decision of ours: how far one jar differs from the next in what it loses (one iodine blank, or none, shows nothing of it), and how good a single determination of
 * moisture is.
 */
export type TakenAs = "losses of jars" | "moisture";

export function takenAs(flask: Flask, recovery: Recovery): readonly TakenAs[] {
	return [
		...((recovery.is === "none" && flask.titrations.length > 0) ||
		(recovery.is === "measured" && recovery.jars.is === "assumed")
			? (["losses of jars"] as const)
			: []),
		...(flask.massBasis !== "dry" &&
		flask.moisture.recorded &&
		flask.moisture.value.knownBy === "one determination"
			? (["moisture"] as const)
			: []),
	];
}
