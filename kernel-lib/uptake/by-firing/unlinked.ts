import type { FiringUptake } from "./link";

/** Items by a key of theirs, in the order of their first. */
export function grouped<T>(
	list: readonly T[],
	keyOf: (item: T) => string,
): Map<string, T[]> {
	const groups = new Map<string, T[]>();
	for (const item of list)
		groups.set(keyOf(item), [...(groups.get(keyOf(item)) ?? []), item]);
	return groups;
}

const flaskList = (own: readonly FiringUptake[]): string =>
	`${own.length === 1 ? "Flask" : "Flasks"} ${own.map((u) => u.flask.name).join(", ")}`;

/** Flasks without a firing and why, one sentence a reason. */
export function unlinkedSentences(uptakes: readonly FiringUptake[]): string[] {
	const reasons = grouped(
		uptakes.filter((u) => u.firing.is === "not known"),
		(u) => (u.firing.is === "not known" ? u.firing.because : ""),
	);
	return [...reasons].map(
		([because, own]) => `${flaskList(own)}: no firing is known; ${because}.`,
	);
}
