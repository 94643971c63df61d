import { distance } from "fastest-levenshtein";

/** Letters that may differ between a name and what was written for it: a third of the name, and one in the shortest; a decision of ours. */
function allowance(name: string): number {
	return Math.max(1, Math.floor(name.length / 3));
}

/** Case, spaces, hyphens and underscores do not count. */
function letters(text: string): string {
	return text.toLowerCase().replace(/[\s_-]/g, "");
}

/** The known name that a mistyped one was most likely meant for: the one with the fewest letters different, at most a third of its length; "" where none is near. */
export function nearestName(word: string, known: readonly string[]): string {
	const written = letters(word);
	if (written === "") return "";
	const near = known
		.map((name) => ({ name, letters: letters(name) }))
		.map(({ name, letters }) => ({
			name,
			different: distance(written, letters),
			allowed: allowance(letters),
		}))
		.filter(({ different, allowed }) => different <= allowed)
		.sort((a, b) => a.different - b.different);
	return near.length === 0 ? "" : near[0].name;
}

/** 'Did you mean "x"?', or the list of what there is. What is no text is near to nothing. */
export function didYouMean(word: unknown, known: readonly string[]): string {
	const near = typeof word === "string" ? nearestName(word, known) : "";
	return near === ""
		? `There is ${known.map((name) => `"${name}"`).join(", ")}.`
		: `Did you mean "${near}"?`;
}
