import type { Observation } from "./observations";
import type { Pair } from "./pairs";

/** What flasks that gave only a bound leave of a difference: everything, one side of it, or nothing because they pull both ways. */
export type BoundSides =
	| { readonly is: "no bounds" }
	| {
			readonly is: "at least" | "at most";
			readonly flasks: readonly string[];
	  }
	| { readonly is: "conflict"; readonly flasks: readonly string[] };

/** A treated flask that holds at least so much, or a control that holds at most so much, says that the difference is at least so much; and the mirror. More is not read out of bounds: our decision, data/simulation/bounds-rules.md has what other ways would give. */
export function boundSidesOf(
	list: readonly Observation[],
	pair: Pair,
): BoundSides {
	const flasks: string[] = [];
	const sides = new Set<"at least" | "at most">();
	for (const o of list) {
		if (o.side === "value") continue;
		const treated = o.treatment === pair.treatment;
		if (!treated && o.treatment !== pair.control) continue;
		flasks.push(o.name);
		sides.add(treated === (o.side === "at least") ? "at least" : "at most");
	}
	const [side] = sides;
	if (side === undefined) return { is: "no bounds" };
	return sides.size > 1 ? { is: "conflict", flasks } : { is: side, flasks };
}
