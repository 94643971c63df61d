import type { NoDifference, TreatmentVerdict } from "../compare";
import { obstacleReason } from "./obstacle-words";

/** Why a verdict has no difference to show. */
export function whyNoDifference(
	d: NoDifference,
	{ obstacles }: TreatmentVerdict,
): string {
	if (d.why === "soak remains")
		return "a flask ran dry and what is left of its soak may have used up part of the iodine, so that the char's own share is not known even as a bound";
	return obstacles.length > 0
		? obstacleReason(obstacles[0])
		: "there is nothing to compare";
}
