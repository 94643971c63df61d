import type { MaybeKnown } from "../quantity";

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

/** What was to be shown, chosen before looking: that treatment and control differ, or that the treatment takes up more by at least the margin. */
export type Claim = "difference" | "at least the margin more";

/** How "no difference that matters" is judged. */
export type Sameness = "one-sided tests" | "interval";

/** What the words of a pair are judged by. */
export interface Rule {
	/** mg/g */
	readonly margin: MaybeKnown<number>;
	readonly claim: Claim;
	readonly sameness: Sameness;
}

/** A difference is called higher where its whole interval lies beyond this; without a margin no claim of at least the margin can be shown. */
function higherBeyond({ margin, claim }: Pick<Rule, "margin" | "claim">) {
	if (claim === "difference") return 0;
	return margin.is === "value" ? margin.value : Number.POSITIVE_INFINITY;
}

/**
 * The order in which the words are tried: inside plus or minus the margin, where there is one; else leaving out zero (or, where at least the margin was claimed, lying beyond it); else cannot tell. A difference that
 * is surely there and surely smaller than what matters is "no difference that matters".
 *
 * @param within what must lie inside the margin for that: limits by one-sided tests, or the interval itself
 */
export function wordFor(
	{ low, high }: Interval,
	rule: Pick<Rule, "margin" | "claim">,
	within: Interval = { low, high },
): VerdictWord {
	const { margin } = rule;
	if (
		margin.is === "value" &&
		within.low >= -margin.value &&
		within.high <= margin.value
	)
		return "no difference that matters";
	if (low > higherBeyond(rule)) return "higher";
	if (high < 0) return "lower";
	return "cannot tell";
}

export function liesBeyond(
	{ low, high }: Interval,
	margin: MaybeKnown<number>,
): boolean {
	return margin.is === "value" && (low > margin.value || high < -margin.value);
}

/** The first word that says something, of several intervals with the widest first. */
export function firstTold(words: readonly VerdictWord[]): VerdictWord {
	return words.find((word) => word !== "cannot tell") ?? "cannot tell";
}
