/** A level of confidence as it is read: 0.95 is "95 %", 0.999 is "99.9 %". */
export function confidenceText(confidence: number): string {
	return `${Number((100 * confidence).toFixed(2))} %`;
}

/** The confidence of the intervals of a result. */
export function confidenceOf(result: object): number {
	return "confidence" in result && typeof result.confidence === "number"
		? result.confidence
		: 0.95;
}
