import type { CompareOptions } from "../settings";
import type { Comparison, Decision } from "../verdict";
import { type Compared, decisionRules } from "./rules";

/** A comparison with the decisions that it was made by. */
export function withDecisions(
	compared: Compared,
	options: CompareOptions,
): Comparison {
	const asked = { trial: compared.trial, options };
	return {
		...compared,
		decisions: decisionRules.map(
			({ name, taken, usual, idle }): Decision => ({
				name,
				taken: taken(asked),
				usual: usual(asked),
				idle: idle(compared),
			}),
		),
	};
}

/** The decisions that were taken otherwise than usual and have a part in the comparison. */
export function unusualDecisions({
	decisions,
}: Pick<Comparison, "decisions">): Decision[] {
	return decisions.filter((d) => d.taken !== d.usual && d.idle === "");
}
