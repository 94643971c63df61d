import type { Trial } from "./trial";

/** Lists and plain objects, and what stands in them; values with methods of their own (quantities, dates, bytes) stay as they are. */
function freezeDeeply(value: unknown): void {
	if (typeof value !== "object" || value === null || Object.isFrozen(value))
		return;
	const plain =
		Array.isArray(value) || Object.getPrototypeOf(value) === Object.prototype;
	if (!plain) return;
	Object.freeze(value);
	for (const part of Object.values(value)) freezeDeeply(part);
}

/** A trial is read once and never changed: the object, its lists and what stands in them are frozen. */
export function frozenTrial(trial: Trial): Trial {
	freezeDeeply(trial);
	return trial;
}
