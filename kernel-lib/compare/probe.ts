import type { Observation } from "./observations";

/** What the flasks took up, in a word: "iodine", "methylene blue"; several are named one after another. */
export function probeOf(list: readonly Observation[]): string {
	return [...new Set(list.map((o) => o.flask.probe))].join(", ") || "iodine";
}

/** The same with what its grams count. */
export function probeCounted(list: readonly Observation[]): string {
	const probe = probeOf(list);
	return probe === "iodine" ? "iodine (I2)" : probe;
}

/** The blank that tells losses. */
export function probeBlank(list: readonly Observation[]): string {
	return probeOf(list) === "iodine" ? "iodine blank" : "blank without char";
}
