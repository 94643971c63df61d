/** "day" and "2" make "day 2"; a name that says by itself what it is keeps its own words: "day 2" stays "day 2". */
export function withWord(word: string, name: string): string {
	return new RegExp(`^${word}\\b`, "i").test(name) ? name : `${word} ${name}`;
}
