import type { Observation } from "./observations";

/** What counts once: a soak (or firing) with all its flasks, or a flask where soaks tell nothing. */
export interface Unit {
	readonly treatment: string;
	readonly name: string;
	/** Indices of its flasks among the observations. */
	readonly members: readonly number[];
	/** Mean of its flasks, mg/g: each unit counts once, however many flasks it has. */
	readonly mean: number;
	/** The share of its flasks that stood on each day. */
	readonly days: ReadonlyMap<string, number>;
}

export type UnitLevel = "soak" | "flask";

function unitKey(o: Observation, level: UnitLevel): string {
	// Flasks whose soak is not written down may all come from one: they are taken as one soak of their treatment.
	return level === "soak"
		? `${o.treatment}\n${o.flask.flask.soak}`
		: `${o.treatment}\n${o.name}`;
}

/** Gathers the chosen flasks into units, in the order of their first flask. */
export function unitsOf(
	list: readonly Observation[],
	chosen: readonly number[],
	level: UnitLevel,
): Unit[] {
	const members = new Map<string, number[]>();
	for (const i of chosen) {
		const key = unitKey(list[i], level);
		const before = members.get(key);
		if (before) before.push(i);
		else members.set(key, [i]);
	}
	return [...members.values()].map((indices) => {
		const days = new Map<string, number>();
		let sum = 0;
		for (const i of indices) {
			const day = list[i].flask.flask.day;
			days.set(day, (days.get(day) ?? 0) + 1 / indices.length);
			sum += list[i].value;
		}
		const first = list[indices[0]];
		return {
			treatment: first.treatment,
			name: level === "soak" ? first.flask.flask.soak : first.name,
			members: indices,
			mean: sum / indices.length,
			days,
		};
	});
}

export function soaksRecorded(list: readonly Observation[]): boolean {
	return list.some((o) => o.flask.flask.soak !== "");
}
