import { distance } from "fastest-levenshtein";
import type { Column } from "./column";
import type { SheetName } from "./columns";
import { patternsOf } from "./header-patterns";
import type { TableForm } from "./table-form";

/** Two words that differ only in that two neighbouring letters changed places. */
function neighboursSwapped(a: string, b: string): boolean {
	const i = [...a].findIndex((letter, k) => letter !== b[k]);
	return i >= 0 && a.slice(0, i) + a[i + 1] + a[i] + a.slice(i + 2) === b;
}

/** Letters added, lost or changed between two words; two neighbours that changed places count as one. */
const lettersBetween = (a: string, b: string): number =>
	neighboursSwapped(a, b) ? 1 : distance(a, b);

/** The known column that a header was perhaps meant for: same letters, or at most two of them different (one in short words). */
export function nearMiss(
	sheet: SheetName | TableForm,
	name: string,
): { key: string; column: Column; number: string } | null {
	const letters = (s: string): string => s.replace(/[^a-z]/g, "");
	const written = letters(name);
	if (written.length < 3) return null;
	let best: { key: string; column: Column } | null = null;
	let least = 3;
	for (const { key, column } of patternsOf(sheet)) {
		const d = lettersBetween(written, letters(key));
		const allowed = letters(key).length <= 6 ? 1 : 2;
		if (d <= allowed && d < least) {
			least = d;
			best = { key, column };
		}
	}
	return best === null
		? null
		: { ...best, number: /\d+/.exec(name)?.[0] ?? "" };
}
