/** The significance level that a confidence leaves: 0.05 of 0.95, for which binary arithmetic would give 0.050000000000000044. */
export function significanceLevel(confidence: number): number {
	return Number((1 - confidence).toPrecision(12));
}
