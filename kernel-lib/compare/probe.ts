import type { Observation } from "./observations";

/** What the flasks took up, in a word: "iodine", "methylene blue"; several are named one after another. */
export function probeOf(list: readonly Observation[]): string {
	return [...new Set(list.map((o) => o.flask.probe))].join(", ") || "iodine";
}
