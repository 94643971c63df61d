import { isLimited, jointly, type LooksLike } from "../uptake";
import type { Observation } from "./observations";
import type { Pair } from "./pairs";
import type { VerdictWord } from "./word";

/** Flasks whose soak may have left something that consumes or frees iodine, which was not measured. */
export interface Suspicion {
	readonly treatment: string;
	readonly looksLike: LooksLike;
	readonly flasks: readonly string[];
	readonly because: readonly string[];
}

/** @param asked what the suspicion must be able to look like; "either" asks for any */
export function suspicionOf(
	list: readonly Observation[],
	treatment: string,
	asked: LooksLike = "either",
): Suspicion {
	const flasks: string[] = [];
	const because = new Set<string>();
	const looks: LooksLike[] = [];
	for (const o of list) {
		const { demand } = o.flask;
		if (o.treatment !== treatment || demand.is !== "suspected") continue;
		if (
			asked !== "either" &&
			demand.looksLike !== "either" &&
			demand.looksLike !== asked
		)
			continue;
		if (isLimited(demand.ceiling, asked)) continue;
		flasks.push(o.name);
		because.add(demand.because);
		looks.push(demand.looksLike);
	}
	return {
		treatment,
		looksLike: looks.length === 0 ? asked : jointly(looks),
		flasks,
		because: [...because],
	};
}

/**
 * The groups whose suspected soak remains forbid a word. What consumes iodine looks like uptake: a treated char may only seem higher, and a control may only make the treated
 * seem lower; what frees iodine does the opposite. "No difference that matters" would need both to be free of either.
 */
export function forbiddenBy(
	word: VerdictWord,
	list: readonly Observation[],
	{ treatment, control }: Pair,
): Suspicion[] {
	const concerned: readonly (readonly [string, LooksLike])[] =
		word === "higher"
			? [
					[treatment, "more uptake"],
					[control, "less uptake"],
				]
			: word === "lower"
				? [
						[treatment, "less uptake"],
						[control, "more uptake"],
					]
				: word === "no difference that matters"
					? [
							[treatment, "either"],
							[control, "either"],
						]
					: [];
	return concerned
		.map(([t, asked]) => suspicionOf(list, t, asked))
		.filter((s) => s.flasks.length > 0);
}
