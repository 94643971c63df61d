/** The four words, in the order in which they are tried. */
export type VerdictWord =
	| "no difference that matters"
	| "higher"
	| "lower"
	| "cannot tell";

/** Ends of an interval for treated minus control, mg/g. */
export interface Interval {
	readonly low: number;
	readonly high: number;
}

/**
 * The order in which the words are tried: inside plus or minus the margin; else leaving out zero; else cannot tell. A difference that is surely there and surely smaller than what
 * matters is "no difference that matters".
 *
 * @param within what must lie inside the margin for that: limits by one-sided tests, or the interval itself
 */
export function wordFor(
	{ low, high }: Interval,
	margin: number,
	within: Interval = { low, high },
): VerdictWord {
	if (within.low >= -margin && within.high <= margin)
		return "no difference that matters";
	if (low > 0) return "higher";
	if (high < 0) return "lower";
	return "cannot tell";
}

export function liesBeyond({ low, high }: Interval, margin: number): boolean {
	return low > margin || high < -margin;
}
