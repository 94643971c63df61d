import type { Trial } from "../bench";
import type { CharProperty } from "../properties";
import { listed, quoted } from "../quantity";

/** Words that promise a use, in some languages; a name or note that has one is quoted and contradicted. */
const promises =
	/\b(?:drink\w*|potable|tap filter|water filter|breath\w*|respirat\w*|gas ?masks?|(?<!dust )masks?|swallow\w*|edible|eat(?:ing|able)?|food(?! ?(?:waste|scraps?|residues?|leftovers|industry|processing))|tablets?|capsules?|pills?|medic\w*|pharma\w*|antidotes?|detox\w*|poisoning|remedy|cures? (?!at |in |for )\w+|cure for|heal(?:s|ing)?|healthy?(?! and safety)|hospital|baby|babies|(?<!kept )safe(?:ly)?|non-?toxic|harmless|(?:certified|approved)(?! (?:reference|standard|solution|weight|value))|trinkwasser\w*|atem\w*|medizin\w*|heilt?|entgift\w*|potabilis\w*|eau potable|agua potable|médic\w*)\b/iu;

/** So many are quoted, more are counted. */
const mostQuoted = 3;

/** Names and notes of a trial, as they are written there. */
function textsOfTrial({ flasks, firings, solutions }: Trial): string[] {
	return [
		...flasks.flatMap((f) => [
			f.treatment,
			f.sample,
			f.charBatch,
			f.soak,
			f.soakedIn,
			f.notes,
			...Object.values(f.extra),
		]),
		...firings.flatMap((f) => [f.name, f.precursor, f.precursorBatch, f.notes]),
		...solutions.map((s) => s.notes),
	];
}

const textsOfProperties = (found: readonly CharProperty[]): string[] =>
	found.flatMap((p) => [
		p.sample,
		...[...p.determinations, ...p.leftOut].map((d) => d.notes),
	]);

/** Says of names and notes that claim a use that nothing here tested it; empty where none does. */
export function claimedUse(sheet: Trial | readonly CharProperty[]): string[] {
	const texts =
		"flasks" in sheet ? textsOfTrial(sheet) : textsOfProperties(sheet);
	const claims = [...new Set(texts)].filter((text) => promises.test(text));
	if (claims.length === 0) return [];
	const shown = claims.slice(0, mostQuoted).map(quoted);
	const more = claims.length - shown.length;
	return [
		`The sheet says ${listed([...shown, ...(more > 0 ? [`${more} more of the kind`] : [])])}: the words are the sheet's; nothing here tested it.`,
	];
}
