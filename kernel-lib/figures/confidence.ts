/** The confidence of the intervals of a result. */
export function confidenceOf(result: object): number {
	return "confidence" in result && typeof result.confidence === "number"
		? result.confidence
		: 0.95;
}
