import type { IsothermPoints } from "./points";

/** What is taken up, by its name; "solute" where the points do not say. */
export function probeOf({ probe }: Pick<IsothermPoints, "probe">): string {
	return probe === "" ? "solute" : probe;
}
