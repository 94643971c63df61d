import { cellText, type Table, type TableCell, table } from "../../quantity";
import { numberOf } from "./column-numbers";

/** Different entries of a column of words that are named with their numbers; of more, the commonest are. Our decision. */
const namedEntries = 4;

/** Letters of an entry that are shown. */
const shownLetters = 60;

const short = (text: string): string =>
	text.length > shownLetters ? `${text.slice(0, shownLetters)} …` : text;

/** "yes (990), no (10)"; of many different entries the commonest, and how many more there are. */
function entriesText(texts: readonly string[]): string {
	const counts = new Map<string, number>();
	for (const text of texts) counts.set(text, (counts.get(text) ?? 0) + 1);
	if (counts.size === texts.length && counts.size > namedEntries)
		return "all different";
	const named = [...counts]
		.sort((a, b) => b[1] - a[1])
		.slice(0, namedEntries)
		.map(([text, n]) => `${short(text)} (${n})`)
		.join(", ");
	const more = counts.size - namedEntries;
	return more > 0 ? `${named}, and ${more} others` : named;
}

/** "980 values, 20 at least". */
function filledText(cells: readonly TableCell[]): string {
	const bounds = (side: "at least" | "at most"): string[] => {
		const n = cells.filter(
			(c) => typeof c === "object" && "is" in c && c.is === side,
		).length;
		return n === 0 ? [] : [`${n} of them ${side}`];
	};
	return [
		String(cells.length),
		...bounds("at least"),
		...bounds("at most"),
	].join(", ");
}

/** What a column holds, in one line: of numbers the lowest, the middle and the highest, of words the commonest. */
function columnRow(heading: string, column: readonly TableCell[]): TableCell[] {
	const filled = column.filter((cell) => cell !== "");
	const ranked = filled
		.flatMap((cell) => {
			const value = numberOf(cell);
			return value === null ? [] : [{ cell, value }];
		})
		.sort((a, b) => a.value - b.value);
	const at = (place: number): string => cellText(ranked[place].cell, heading);
	const words = filled.filter((cell) => numberOf(cell) === null);
	const numbers =
		ranked.length === 0
			? ["", "", ""]
			: [at(0), at(Math.floor((ranked.length - 1) / 2)), at(ranked.length - 1)];
	return [
		heading,
		filledText(filled),
		...numbers,
		entriesText(words.map((cell) => cellText(cell, heading))),
	];
}

/** A line for each column of a table that holds anything. */
export function summaryOf({ title, columns, rows }: Table): Table {
	return table(
		`${title === "" ? "Table" : title}: all ${rows.length} rows in short`,
		["column", "filled", "lowest", "middle", "highest", "words"],
		columns.flatMap((heading, i) => {
			const column = rows.map((row) => row[i]);
			return column.every((cell) => cell === "")
				? []
				: [columnRow(heading, column)];
		}),
	);
}
