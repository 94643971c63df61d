import type { Deviation } from "../bench";
import type { FlaskUptake } from "../uptake";

/** The flasks of a comparison as the deviations leave them. */
export interface Portions {
	/** As the deviations say that they are to be handled. */
	readonly main: readonly FlaskUptake[];
	/** With every deviating flask left out. Kept: all of them, which is the whole list. */
	readonly leftOut: readonly FlaskUptake[];
	/** Char flasks that a deviation touched, and what happened, in words. */
	readonly flasks: readonly string[];
	readonly happened: readonly string[];
	/** Names in the deviations that are no char flask of this comparison (blanks, leachates, or misspelt). */
	readonly elsewhere: readonly string[];
}

/** A flask named by several deviations is left out if one of them says so. */
export function portionsOf(
	uptakes: readonly FlaskUptake[],
	deviations: readonly Deviation[],
): Portions {
	const present = new Set(uptakes.map((u) => u.flask.name));
	const touched = new Set<string>();
	const out = new Set<string>();
	const elsewhere = new Set<string>();
	const happened = new Set<string>();
	for (const d of deviations)
		for (const name of d.flasks) {
			if (!present.has(name)) {
				elsewhere.add(name);
				continue;
			}
			touched.add(name);
			happened.add(d.whatHappened);
			if (d.handling === "leave out") out.add(name);
		}
	return {
		main: uptakes.filter((u) => !out.has(u.flask.name)),
		leftOut: uptakes.filter((u) => !touched.has(u.flask.name)),
		flasks: uptakes.map((u) => u.flask.name).filter((n) => touched.has(n)),
		happened: [...happened],
		elsewhere: [...elsewhere],
	};
}
