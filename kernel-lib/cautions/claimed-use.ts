import type { Trial } from "../bench";
import { listed } from "../quantity";

/** Words that promise a use, in some languages; a name or note that has one is quoted and contradicted. */
const promises =
	/\b(?:drink\w*|potable|tap filter|water filter|breath\w*|respirat\w*|gas ?masks?|masks?|swallow\w*|edible|eat(?:ing|able)?|food|tablets?|capsules?|pills?|medic\w*|pharma\w*|antidotes?|detox\w*|poisoning|remedy|cure[sd]?|heal\w*|hospital|baby|babies|safe(?:ty)?|non-?toxic|harmless|certified|approved|trinkwasser\w*|atem\w*|medizin\w*|heilt?|entgift\w*|potabilis\w*|eau potable|agua potable|médic\w*)\b/iu;

/** So many are quoted, more are counted. */
const mostQuoted = 3;

/** Names and notes of a sheet that claim a use, as they are written there. */
function claimsIn({ flasks, firings, solutions }: Trial): string[] {
	const texts = [
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
	return [...new Set(texts)].filter((text) => promises.test(text));
}

/** Says of names and notes that claim a use that nothing here tested it; empty where none does. */
export function claimedUse(trial: Trial): string[] {
	const claims = claimsIn(trial);
	if (claims.length === 0) return [];
	const quoted = claims.slice(0, mostQuoted).map((c) => `"${c.slice(0, 80)}"`);
	const more = claims.length - quoted.length;
	return [
		`The sheet says ${listed([...quoted, ...(more > 0 ? [`${more} more of the kind`] : [])])}: the words are the sheet's; nothing here tested it.`,
	];
}
