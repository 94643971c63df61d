import { type Problem, type ProblemPlace, problem } from "../quantity";

/** Two spellings of one name give one key: case, spaces, hyphens and underscores do not count. */
export function spelling(name: string): string {
	return name.toLowerCase().replace(/[\s_-]+/g, "");
}

/** For names that hyphens may tell apart, such as flasks 1-1 and 11: case and the width of spaces do not count. */
export function caseless(name: string): string {
	return name.toLowerCase().replace(/\s+/g, " ");
}

/** A name in a table, and where it stands. */
export interface WrittenName {
	readonly text: string;
	readonly row: number;
	readonly place: ProblemPlace;
}

/**
 * Names that differ from one further up in case, spaces, hyphens or underscores only: most likely one thing under two names. Each spelling is told of once.
 *
 * @param thing what is named, such as "treatment"; it gives the code of the problem too
 * @param key gives one key to spellings of one name
 */
export function spellingProblems(
	names: readonly WrittenName[],
	thing: string,
	key: (name: string) => string = spelling,
): Problem[] {
	const first = new Map<string, WrittenName>();
	const told = new Set<string>();
	return names.flatMap((name) => {
		if (name.text === "") return [];
		const known = first.get(key(name.text));
		if (known === undefined) first.set(key(name.text), name);
		if (known === undefined || known.text === name.text || told.has(name.text))
			return [];
		told.add(name.text);
		return [
			problem(
				`${thing}-spelling`,
				name.place,
				`"${name.text}", while row ${known.row} has "${known.text}"`,
				`one spelling for one ${thing}`,
				`Are they the same? Then write them alike. If they are two ${thing}s, give them names that differ in more than case, spaces and hyphens.`,
			),
		];
	});
}
