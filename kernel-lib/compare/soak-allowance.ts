import type { MaybeKnown } from "../quantity";
import { isLimited, type SoakCeiling } from "../uptake";
import type { SoakAllowance } from "./allowance";
import type { PairDifference } from "./differences";
import type { Observation } from "./observations";
import type { Pair } from "./pairs";
import type { Interval } from "./word";

function ceilingsOf(
	list: readonly Observation[],
	treatment: string,
): SoakCeiling[] {
	return list.flatMap((o) =>
		o.treatment === treatment && o.flask.demand.is === "suspected"
			? [o.flask.demand.ceiling]
			: [],
	);
}

/** The largest of the limits that are known; what is not limited is no number and takes the word away elsewhere. */
const largest = (limits: readonly MaybeKnown<number>[]): number =>
	Math.max(0, ...limits.map((l) => (l.is === "value" ? l.value : 0)));

/** What the soaks of a pair may have left, in the worst flask of each side. */
export function soakAllowance(
	list: readonly Observation[],
	{ treatment, control }: Pair,
): SoakAllowance {
	const [treated, untreated] = [treatment, control].map((t) =>
		ceilingsOf(list, t),
	);
	const both = [...treated, ...untreated];
	return {
		low:
			largest(treated.map((c) => c.more)) +
			largest(untreated.map((c) => c.less)),
		high:
			largest(treated.map((c) => c.less)) +
			largest(untreated.map((c) => c.more)),
		complete: both.every((c) => isLimited(c)),
		steps: [
			...new Set(both.filter((c) => isLimited(c)).flatMap((c) => c.steps)),
		],
	};
}

/** An interval with room for what the soaks may have left. */
export const wider = (
	{ low, high }: Interval,
	allowance: SoakAllowance,
): Interval => ({
	low: low - allowance.low,
	high: high + allowance.high,
});

/** A difference whose ends leave room for what the soaks may have left. */
export function withAllowance(
	difference: PairDifference,
	allowance: SoakAllowance,
): PairDifference {
	switch (difference.is) {
		case "missing":
			return difference;
		case "interval":
			return {
				...difference,
				interval: wider(difference.interval, allowance),
				oneSided: wider(difference.oneSided, allowance),
			};
		case "one-sided":
			return {
				...difference,
				without: wider(difference.without, allowance),
				atLimit: wider(difference.atLimit, allowance),
			};
	}
}
