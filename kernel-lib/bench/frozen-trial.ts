import type { Trial } from "./trial";

/** A trial is read once and never changed: the object, its lists and what stands in them are frozen. */
export function frozenTrial(trial: Trial): Trial {
	for (const part of Object.values(trial))
		if (Array.isArray(part)) {
			for (const item of part) Object.freeze(item);
			Object.freeze(part);
		}
	return Object.freeze(trial);
}
