import { substances } from "./list";
import { nameKey } from "./spelling";
import type { Substance } from "./substance";

/** A name of the list, spelled as `nameKey` spells it. */
export interface ListedName {
	readonly key: string;
	readonly substance: Substance;
	/** A formula may have water of crystallisation behind it. */
	readonly isFormula: boolean;
}

const waterOfFormula = /^(.+)\.(\d+)h2o$/;

/** Ways of typing a formula; a single letter is no name (S may be a label). */
function formulaKeys(formula: string): string[] {
	const key = nameKey(formula);
	if (key.length < 2) return [];
	const water = waterOfFormula.exec(key);
	if (water === null) return [key];
	const [, salt, n] = water;
	return [
		key,
		`${salt}.${n} h2o`,
		`${salt} ${n}h2o`,
		`${salt} ${n} h2o`,
		`${salt} x ${n}h2o`,
		`${salt} x ${n} h2o`,
	];
}

/** Isomers have one formula: it names neither of them. */
const ambiguous = new Set(
	substances
		.map((s) => s.formula)
		.filter((f, i, all) => f !== "" && all.indexOf(f) !== i),
);

const umlauts: Readonly<Record<string, string>> = { ä: "ae", ö: "oe", ü: "ue" };

/** A name and, where it has umlauts, its spelling without them: salzsäure, salzsaeure (accents do not count anyway). */
const spellings = (name: string): string[] => [
	...new Set([name, name.replaceAll(/[äöü]/g, (letter) => umlauts[letter])]),
];

const looksLikeFormula = /^(?=.*[A-Z])[A-Z(\d][A-Za-z\d()]*\d?$/;

/** Every name of a substance. */
export function namesOf(substance: Substance): readonly ListedName[] {
	const words = [substance.name, ...substance.synonyms]
		.flatMap(spellings)
		.map((name) => ({
			key: nameKey(name),
			substance,
			isFormula: looksLikeFormula.test(name),
		}));
	const formulas = ambiguous.has(substance.formula)
		? []
		: formulaKeys(substance.formula).map((key) => ({
				key,
				substance,
				isFormula: true,
			}));
	return [
		...new Map(
			[...words, ...formulas].map((n): [string, ListedName] => [n.key, n]),
		).values(),
	];
}

const listed = substances.flatMap(namesOf);

export const nameByKey: ReadonlyMap<string, ListedName> = new Map(
	listed.map((n) => [n.key, n]),
);

/** The word (or, for a formula that begins with one, the bracket) that a name begins with. */
function firstWord(key: string): string {
	return /^[\p{L}\p{N}]+/u.exec(key)?.[0] ?? key.slice(0, 1);
}

/** Names by their first word, the longest first. */
export const namesByFirstWord: ReadonlyMap<string, readonly ListedName[]> =
	(() => {
		const groups = new Map<string, ListedName[]>();
		for (const name of listed) {
			const word = firstWord(name.key);
			groups.set(word, [...(groups.get(word) ?? []), name]);
		}
		for (const group of groups.values())
			group.sort((a, b) => b.key.length - a.key.length);
		return groups;
	})();
