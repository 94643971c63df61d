/** What a text names that is dangerous, listed or by a word of its kind. */
import type { DangerKind } from "./dangers";
import { substancesIn } from "./search";

/** Something dangerous that a text names. */
export interface NamedDanger {
	readonly name: string;
	readonly dangers: readonly DangerKind[];
}

/** Words that name a kind where the list has no entry: metals and ions without their salt, and mixtures, in some languages. */
const wordsOfKinds: Partial<Record<DangerKind, readonly string[]>> = {
	cyanide: ["cyanides?", "cyanid", "zyanid", "cyanures?", "cianuro"],
	azide: ["azides", "azid", "azoture", "azida"],
	fluoride: ["fluorides?", "fluorid", "fluorure", "fluoruro", "fluorhydrique"],
	poison: [
		"mercury",
		"quecksilber",
		"mercure",
		"mercurio",
		"arsenic",
		"arsen",
		"arsenik",
		"thallium",
		"cadmium",
		"nickel salts?",
		"cobalt",
		"barium",
		"lead salts?",
		"lead paint",
		"blei",
		"plomb",
		"plomo",
		"piombo",
		"asbestos",
		"asbest",
		"amiante",
		"uranium",
		"radioactive",
		"pesticides?",
		"herbicides?",
		"insecticides?",
		"fungicides?",
		"rat poison",
		"naphthalene",
	],
	perchlorate: ["perchlorates?", "perchlorat"],
	oxidiser: [
		"peroxides",
		"peroxid",
		"peroxyde",
		"chlorates",
		"chlorat",
		"clorato",
		"permanganates",
		"permanganat",
		"oxidi[sz]er",
	],
	nitrate: ["nitrates?", "nitrat", "nitrato", "nitrites"],
	bleach: ["hipoclorito", "ipoclorito", "lavandina", "varechina", "candeggina"],
	ammonia: ["amm?on[iyí]\\p{L}*"],
	sulfide: ["sul(?:f|ph)ides?", "sulfid", "sulfure", "sulfuro", "solfuro"],
	solvent: ["benzin", "brennspiritus", "spiritus"],
	brine: ["float liquid", "brine"],
};

const byWord = Object.entries(wordsOfKinds).flatMap(([kind, words]) =>
	words.map((word) => ({
		found: new RegExp(`(?<![\\p{L}\\p{N}])(?:${word})(?![\\p{L}\\p{N}])`, "iu"),
		dangers: [kind as DangerKind],
	})),
);

/** Words of a kind in what the list does not know; a text that is such a word as a whole counts, too. */
function ofWords(text: string, unlisted: readonly string[]): NamedDanger[] {
	return [...unlisted, text].flatMap((piece, i) =>
		byWord.flatMap(({ found, dangers }) => {
			const word = found.exec(piece)?.[0];
			const whole = i < unlisted.length || word?.length === piece.length;
			return word !== undefined && whole
				? [{ name: word.toLowerCase(), dangers }]
				: [];
		}),
	);
}

/** What a text names that is dangerous; a name that is said to be absent does not count. */
export function dangersNamedIn(text: string): readonly NamedDanger[] {
	const found = substancesIn(text);
	const unlisted = found.flatMap((s) => (s.is === "known" ? [] : [s.written]));
	const listed = found.flatMap((s) => (s.is === "known" ? [s.substance] : []));
	return [...listed, ...ofWords(text, unlisted)];
}
