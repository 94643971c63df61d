import { type NotKnown, notKnown, requireText } from "../quantity";
import { type ListedName, nameByKey, namesByFirstWord } from "./names";
import { isOrdinary } from "./ordinary-words";
import { type Folded, fold, nameKey } from "./spelling";
import type { Substance } from "./substance";

/** A substance of the list, or why there is none. */
export type SubstanceFound =
	| { readonly is: "known"; readonly substance: Substance }
	| NotKnown;

/** One name in a text, as it was written there. */
export type NamedSubstance = SubstanceFound & { readonly written: string };

/** Water of crystallisation behind a formula. */
const hydrate =
	/^(?:\.(?:\d+(?:[.,]\d+)?)?|\s?x\s?(?:\d+)?|\s\d+(?:[.,]\d+)?)\s?h2o(?![\p{L}\p{N}])/u;

const unlisted = (written: string): NotKnown =>
	notKnown(`"${written}" is not on the list of substances`);

/**
 * The substance of a name: its usual name, a synonym, a trade name or its formula, with water of crystallisation or without. The whole text must be the name; `substancesIn`
 * finds names within a text. Case, accents, subscripts and hyphens do not count.
 * @example
 * const found = substances.substanceNamed("K₂CO₃");
 * found.is === "known" ? found.substance.name : found.because // => "potassium carbonate"
 * substances.substanceNamed("kitchen magic").is // => "not known"
 */
export function substanceNamed(name: string): SubstanceFound {
	requireText(name, 'the name of a substance in quotes, such as "potash"', "");
	const key = nameKey(name);
	const exactly = nameByKey.get(key);
	if (exactly !== undefined)
		return { is: "known", substance: exactly.substance };
	const dot = key.search(/[.\sx]\s?\d*\s?h2o$/);
	const salt = dot > 0 ? nameByKey.get(key.slice(0, dot).trim()) : undefined;
	return salt?.isFormula === true && hydrate.test(key.slice(salt.key.length))
		? { is: "known", substance: salt.substance }
		: unlisted(name.trim());
}

/** Whether a text is one of the names of the listed substance `name`. */
export function isSubstance(written: string, name: string): boolean {
	const found = substanceNamed(written);
	return found.is === "known" && found.substance.name === name;
}

/** Whether a name may begin here: not within a word, nor within the brackets of a formula such as Co(NH3)6. */
function startsHere(text: string, at: number): boolean {
	const before = text.slice(Math.max(0, at - 2), at);
	return !/[\p{L}\p{N}]$|[\p{L}\p{N})\]][([{]$/u.test(before);
}

function endsHere(text: string, at: number): boolean {
	return !/^[\p{L}\p{N}([{]/u.test(text.slice(at, at + 1));
}

/** Where the longest name that begins here ends; its water of crystallisation belongs to it. */
function nameAt(
	text: string,
	at: number,
): { readonly name: ListedName; readonly end: number } | null {
	if (!startsHere(text, at)) return null;
	const word = /^[\p{L}\p{N}]+/u.exec(text.slice(at))?.[0] ?? text[at];
	for (const name of namesByFirstWord.get(word) ?? []) {
		if (!text.startsWith(name.key, at)) continue;
		const end = at + name.key.length;
		const water = name.isFormula ? hydrate.exec(text.slice(end)) : null;
		if (water !== null) return { name, end: end + water[0].length };
		if (endsHere(text, end)) return { name, end };
	}
	return null;
}

/** A word that is no listed name; the brackets of an unlisted formula belong to it. */
const wordPattern =
	/^[\p{L}\p{N}]+(?:[([{][\p{L}\p{N}]+[)\]}]\p{N}*|\.\p{N}*h2o|[([{][\p{L}\p{N}]+$)*/u;

const saysWithout =
	/(?:^|[^\p{L}])(?:no|not|without|free of|free from|instead of|no (?:trace|traces|smell|sign) of|never near|ohne|kein|keine|sans|sin|senza) $/u;
/** Letters that such words take before a name, with room to spare. */
const longestDenial = 20;
const saysFree = /^ free(?! of | from )(?![\p{L}\p{N}])/u;

/** "potash-free", "without potash": the name is there to say that the substance is not. */
function isDenied(text: string, start: number, end: number): boolean {
	return (
		saysFree.test(text.slice(end)) ||
		saysWithout.test(text.slice(Math.max(0, start - longestDenial), start))
	);
}

interface Piece {
	readonly start: number;
	readonly end: number;
	readonly name: ListedName | null;
}

/** Listed names and words that are neither listed nor ordinary, in the order of the text. */
function pieces(text: string): Piece[] {
	const found: Piece[] = [];
	let at = 0;
	while (at < text.length) {
		const listed = nameAt(text, at);
		const word = wordPattern.exec(text.slice(at))?.[0] ?? "";
		const end = listed?.end ?? at + Math.max(1, word.length);
		const counts = listed !== null || (word !== "" && !isOrdinary(word));
		if (counts && !isDenied(text, at, end))
			found.push({ start: at, end, name: listed?.name ?? null });
		at = end;
	}
	return found;
}

/** Neighbouring unknown words are one unknown name. */
function joined(list: readonly Piece[], text: string): Piece[] {
	const result: Piece[] = [];
	for (const piece of list) {
		const last = result.at(-1);
		if (
			last !== undefined &&
			last.name === null &&
			piece.name === null &&
			/^\s*$/.test(text.slice(last.end, piece.start))
		)
			result[result.length - 1] = { ...last, end: piece.end };
		else result.push(piece);
	}
	return result;
}

/** One character as written may be several letters of the evened-out text: it belongs to the piece as a whole. */
function asWritten(
	written: string,
	{ from }: Folded,
	{ start, end }: Piece,
): string {
	const next = from.find((at, i) => i >= end && at > from[end - 1]);
	return written.slice(from[start], next ?? written.length).trim();
}

function search(text: string): readonly NamedSubstance[] {
	const folded = fold(text);
	return joined(pieces(folded.text), folded.text).map((piece) => {
		const written = asWritten(text, folded, piece);
		return piece.name === null
			? { ...unlisted(written), written }
			: { is: "known", substance: piece.name.substance, written };
	});
}

/** A sheet writes the same few texts again and again. */
const searched = new Map<string, readonly NamedSubstance[]>();
const mostKept = 1000;

/**
 * Every substance that a text names, in its order, the longest name first ("lime juice" is not lime); a name that is said to be absent ("potash-free") does not count. Words that
 * are neither a listed name nor an ordinary word of the bench are not known: what they stand for may be anything.
 * @example
 * substances.substancesIn("potash alum, then lime juice").map((s) => (s.is === "known" ? s.substance.name : "?")) // => ["potassium alum", "lemon or lime juice"]
 * substances.substancesIn("some magic, rinsed twice").map((s) => s.is) // => ["not known"]
 * substances.substancesIn("potash-free water").map((s) => s.written) // => ["water"]
 */
export function substancesIn(text: string): readonly NamedSubstance[] {
	const before = searched.get(text);
	if (before !== undefined) return before;
	requireText(text, 'a text in quotes, such as "potash alum"', "substancesIn");
	const found = search(text);
	if (searched.size >= mostKept) searched.clear();
	searched.set(text, found);
	return found;
}
