/**
 * Names that, as a whole, say "this is the control", the plainest first. A word within a name says nothing: "water glass" and "limewater" are treatments. A decision of ours.
 */
const ranks: readonly ReadonlySet<string>[] = [
	"control, the control, control char, control group, untreated control, control untreated, water control, control water, blank control",
	"untreated, untreated char, not treated, no treatment, raw, raw char, unsoaked, not soaked, blank char, char blank, water, water only, only water, plain water, tap water, distilled water, deionised water, deionized water, water soaked, soaked in water, water soak, water treated",
].map((names) => new Set(names.split(", ")));

/** Case, hyphens, brackets, commas and colons do not tell two names apart. */
function plain(name: string): string {
	return name
		.normalize("NFKC")
		.toLowerCase()
		.replace(/[\s_,:;()[\]–—-]+/g, " ")
		.replace(/\b(bio)?char(coal)?\b/g, "char")
		.trim();
}

/** A letter or a number behind such a name tells several controls apart; it does not make one of them the control of all. */
const counted = / (?:\p{L}|\p{N}{1,2})$/u;

/** What the names of the treatments say of the control: one of them is it, several could be, or none. */
export interface ControlByName {
	readonly is: "one" | "several" | "none";
	readonly names: readonly string[];
}

/**
 * The control where no row names one: the one treatment whose whole name says so. "control" outranks the others, because the sheet calls it that; of the others ("raw" beside
 * "water") none outranks another, and which is meant is asked.
 */
export function controlByName(treatments: readonly string[]): ControlByName {
	for (const rank of ranks) {
		const names = treatments.filter(
			(t) => rank.has(plain(t)) || rank.has(plain(t).replace(counted, "")),
		);
		if (names.length > 0)
			return { is: names.length === 1 ? "one" : "several", names };
	}
	return { is: "none", names: [] };
}
