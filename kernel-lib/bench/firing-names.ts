import { distance } from "./headers";

/** The key under which an activation run is looked up: case and the width of spaces do not count. */
export function runKey(name: string): string {
	return name.trim().toLowerCase().replace(/\s+/g, " ");
}

/** The known name that a word was perhaps meant for: the same but for spaces and hyphens, or at most two letters different (one in short names); "" where none is. */
export function nearestName(word: string, known: readonly string[]): string {
	const letters = (s: string): string => s.toLowerCase().replace(/[\s_-]/g, "");
	const written = letters(word);
	const scored = known
		.map((name) => ({ name, d: distance(written, letters(name)) }))
		.filter(({ name, d }) => d <= (letters(name).length <= 6 ? 1 : 2))
		.sort((a, b) => a.d - b.d);
	return written === "" || scored.length === 0 ? "" : scored[0].name;
}
