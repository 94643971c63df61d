import type { TakenAs } from "../uptake";
import type { Observation } from "./observations";
import type { Pair } from "./pairs";

function flasksOf(list: readonly Observation[], pair: Pair): Observation[] {
	return list.filter(
		(o) => o.treatment === pair.treatment || o.treatment === pair.control,
	);
}

/** What the uptakes of a pair are per gram of: one thing, or two that cannot be compared. */
export function perGramOf(
	list: readonly Observation[],
	pair: Pair,
): "dry char" | "char as weighed" | "both" {
	const found = new Set(flasksOf(list, pair).map((o) => o.flask.perGram));
	const [only] = found;
	return found.size === 1 ? only : "both";
}

/** Whether the uncertainty of any flask of a pair takes something from a decision of ours. */
export function takesAs(
	list: readonly Observation[],
	pair: Pair,
	what: TakenAs,
): boolean {
	return flasksOf(list, pair).some((o) => o.flask.takenAs.includes(what));
}

/**
 * Whether losses were taken off alike on both sides. Iodine blanks go by day and days are blocks, so a day without a blank does no harm by itself; but on one day both
 * sides must have been treated alike.
 */
export function lossesOf(
	list: readonly Observation[],
	pair: Pair,
): "taken off" | "included" | "by day" | "unlike" {
	const byDay = new Map<string, Set<boolean>>();
	for (const o of flasksOf(list, pair)) {
		const day = o.flask.flask.day;
		byDay.set(day, (byDay.get(day) ?? new Set()).add(o.flask.lossesTakenOff));
	}
	if ([...byDay.values()].some((flags) => flags.size > 1)) return "unlike";
	const all = new Set([...byDay.values()].flatMap((flags) => [...flags]));
	if (all.size > 1) return "by day";
	return all.has(true) ? "taken off" : "included";
}
