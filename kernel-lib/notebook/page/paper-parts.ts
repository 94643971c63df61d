/** A table that is too wide for paper, in parts that fit: each repeats the columns that name the rows. */

/** Letters that a line of a table on paper holds beside one another. Our decision. */
const paperLetters = 96;

/** A column is set as wide as its longest word, and no wider than a cell that breaks its lines. */
const widestCell = 18;

const room = 2;

/** Letters that a column needs on paper. */
export function paperWidth(texts: readonly string[]): number {
	const longest = (text: string): number =>
		Math.max(
			0,
			...text.split(/\s+/).map((word) => word.length),
			Math.min(text.length, widestCell / 2),
		);
	return Math.min(widestCell, Math.max(...texts.map(longest))) + room;
}

/**
 * The columns of each part, by their index: the first so many, which name the rows, and as many others as fit beside them.
 * @param widths of all columns in letters
 * @param keys how many of the first columns every part repeats
 */
export function paperParts(
	widths: readonly number[],
	keys: number,
): readonly (readonly number[])[] {
	const named = widths.slice(0, keys).map((_, i) => i);
	const taken = widths.slice(0, keys).reduce((sum, w) => sum + w, 0);
	const parts: number[][] = [];
	let left = 0;
	for (let i = keys; i < widths.length; i++) {
		if (parts.length === 0 || widths[i] > left) {
			parts.push([...named]);
			left = paperLetters - taken;
		}
		parts[parts.length - 1].push(i);
		left -= widths[i];
	}
	return parts.length === 0 ? [named] : parts;
}
