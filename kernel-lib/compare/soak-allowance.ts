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

/** What the char of a flask took up per gram beyond what is reckoned per gram of char and salt together, at most, mg/g. */
function hiddenByMass({ value, flask }: Observation): number {
	if (flask.soakMass.is === "not known") return 0;
	const share = flask.soakMass.value.most;
	return (Math.max(0, value) * share) / (1 - share);
}

/** What the soaks of a pair may have left, in the worst flask of each side: what acts on iodine, and what only adds to the mass. */
export function soakAllowance(
	list: readonly Observation[],
	{ treatment, control }: Pair,
): SoakAllowance {
	const [treated, untreated] = [treatment, control].map((t) =>
		ceilingsOf(list, t),
	);
	const both = [...treated, ...untreated];
	const [heavier, heavierControl] = [treatment, control].map((t) =>
		list.filter((o) => o.treatment === t),
	);
	const byMass = [...heavier, ...heavierControl].flatMap(
		({ flask: { soakMass } }) =>
			soakMass.is === "value" && soakMass.value.most > 0
				? soakMass.value.steps.map((s) => `as mass, ${s}`)
				: [],
	);
	return {
		low:
			largest(treated.map((c) => c.more)) +
			largest(untreated.map((c) => c.less)) +
			Math.max(0, ...heavierControl.map(hiddenByMass)),
		high:
			largest(treated.map((c) => c.less)) +
			largest(untreated.map((c) => c.more)) +
			Math.max(0, ...heavier.map(hiddenByMass)),
		complete: both.every((c) => isLimited(c)),
		steps: [
			...new Set([
				...both.filter((c) => isLimited(c)).flatMap((c) => c.steps),
				...byMass,
			]),
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
