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
 */
export function wordFor({ low, high }: Interval, margin: number): VerdictWord {
	if (low >= -margin && high <= margin) return "no difference that matters";
	if (low > 0) return "higher";
	if (high < 0) return "lower";
	return "cannot tell";
}

export function liesBeyond({ low, high }: Interval, margin: number): boolean {
	return low > margin || high < -margin;
}
