/** A name that a sheet gives is shown up to so many letters: a decision of ours. */
const mostLetters = 80;

/**
 * A name that a sheet gives, as a sentence, a title or a caption shows it: in double quotes, so that it never reads as words of this program. Double quotes inside it become single
 * ones, since they would end it early; a long one is cut.
 */
export function quoted(name: string): string {
	const letters = [...name.replace(/["“”„]/gu, "'")];
	return letters.length > mostLetters
		? `"${letters.slice(0, mostLetters).join("")}…"`
		: `"${letters.join("")}"`;
}
