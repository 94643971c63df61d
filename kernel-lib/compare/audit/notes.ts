import type { Flask } from "../../bench";
import { quoted } from "../../quantity";
import {
	flasksOf,
	type Looked,
	ofOneSide,
	type Sides,
	shareWith,
	unrecorded,
} from "./sides";

/** Words in a note that tell of a mishap, or of a step that was left out. A decision of ours; a note without any of them is told as it stands. */
const mishaps: readonly RegExp[] = [
	/\bsp(?:il[lt]|illed|illage|lash)/,
	/\b(?:lost|loss(?:es)?|leak\w*|broke\w*|crack\w*|overflow\w*|overboil\w*|boiled (?:over|dry)|ran (?:over|dry))\b/,
	/\b(?:dropped|fell|tipped|knocked|slipped|burst|split)\b/,
	/\b(?:contaminat\w*|dirty|wrong\w*|mistake\w*|error|forg[eo]t\w*|missed|mixed up|swapped|doubt\w*|unsure|not sure|suspect\w*|strange|odd|unclear)\b/,
	/\b(?:not|un|never|without)[ -]?(?:rins\w*|wash\w*|dried|sieved|filtered|shaken|stirred|acidified|closed|stoppered|covered)\b/,
	/\bover-?(?:shot|titrat\w*|run|ran|dried|heated)\b/,
	/\b(?:left|stood|lid|stopper|jar) (?:open|off|out|overnight|loose)\b/,
	/\b(?:too (?:late|early|much|little|long|short|hot|cold)|cloudy|fines|guess\w*|estimated|approximately)\b/,
];

/** Whether a note tells of a mishap. */
export const isMishap = (note: string): boolean => {
	const plain = note.normalize("NFKC").toLowerCase();
	return mishaps.some((m) => m.test(plain));
};

/** Notes in quotation marks, each once, cut where they are long. */
function notesOf(
	flasks: readonly Flask[],
	noted: (f: Flask) => boolean,
): string {
	const own = [...new Set(flasks.filter(noted).map((f) => f.notes))];
	if (own.length === 0) return "none";
	const [first, ...more] = own;
	const flasksWith = flasks.filter(noted).length;
	return `${quoted(first)}${more.length > 0 ? ` and ${more.length} more` : ""} (${flasksWith} of ${flasks.length})`;
}

function notesLike(
	{ treated, untreated }: Sides,
	noted: (f: Flask) => boolean,
	caps: boolean,
): Exclude<Looked, { is: "not recorded" }> {
	const [one, other] = [treated, untreated].map(flasksOf);
	const apart = Math.abs(shareWith(one, noted) - shareWith(other, noted));
	return {
		is: [...one, ...other].some(noted) ? "beyond" : "within",
		feigns: caps && apart >= ofOneSide ? "either" : "nothing",
		treated: notesOf(one, noted),
		untreated: notesOf(other, noted),
	};
}

/** What people write into a cell to say that there is nothing to tell. */
const nothing = /^(?:[-–—./]*|none|no|nil|n\/?a|ok(?:ay)?|fine)$/i;
const told = (f: Flask): boolean => !nothing.test(f.notes.trim());
const mishap = (f: Flask): boolean => told(f) && isMishap(f.notes);

/** Notes that tell of a mishap: on one side only, they may have made the difference. */
export function mishapNotes(sides: Sides): Looked {
	const all = [...sides.treated, ...sides.untreated].map((o) => o.flask.flask);
	return all.some(told) ? notesLike(sides, mishap, true) : unrecorded;
}

/** Any other notes that stand on one side and hardly on the other: told as they are. */
export function otherNotes(sides: Sides): Looked {
	const other = (f: Flask): boolean => told(f) && !mishap(f);
	const [one, two] = [sides.treated, sides.untreated].map((side) =>
		shareWith(flasksOf(side), other),
	);
	if (one + two === 0) return unrecorded;
	const looked = notesLike(sides, other, false);
	return Math.abs(one - two) >= ofOneSide
		? looked
		: { ...looked, is: "within" };
}
