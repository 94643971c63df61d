import type { Observation } from "./observations";
import type { Pair } from "./pairs";
import type { VerdictWord } from "./verdict";

/** Flasks whose soak residue may consume iodine, which was not measured. */
export interface Suspicion {
	readonly treatment: string;
	readonly flasks: readonly string[];
	readonly because: readonly string[];
}

export function suspicionOf(
	list: readonly Observation[],
	treatment: string,
): Suspicion {
	const flasks: string[] = [];
	const because = new Set<string>();
	for (const o of list)
		if (o.treatment === treatment && o.flask.demand.is === "suspected") {
			flasks.push(o.name);
			because.add(o.flask.demand.because);
		}
	return { treatment, flasks, because: [...because] };
}

/**
 * The groups whose suspected demand forbids a word. What a residue consumes looks like uptake: a treated char may only seem higher, and a control may only make the treated
 * seem lower. "No difference that matters" would need both to be free of it. That a treated char is lower in spite of a suspected demand stands.
 */
export function forbiddenBy(
	word: VerdictWord,
	list: readonly Observation[],
	pair: Pair,
): Suspicion[] {
	const concerned =
		word === "higher"
			? [pair.treatment]
			: word === "lower"
				? [pair.control]
				: word === "no difference that matters"
					? [pair.treatment, pair.control]
					: [];
	return concerned
		.map((t) => suspicionOf(list, t))
		.filter((s) => s.flasks.length > 0);
}
