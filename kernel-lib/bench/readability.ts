import { toBase } from "../quantity";
import type { ParsedTable } from "./parsed-table";

/**
 * The last digit that a balance not named in the sheet seems to have shown: the finest decimal place in grams among its masses (1 g is written 1.00 by one and 1 by
 * another, so the place is taken from what the numbers are). With fewer than three different masses nothing can be seen: 0.001 g.
 */
export function readabilityOf<Key extends string>(
	table: ParsedTable<Key>,
	isMass: (key: Key) => boolean,
): number {
	const masses = new Set<number>();
	for (const [key, matches] of table.columns) {
		if (!isMass(key)) continue;
		for (const { index, kind, unit } of matches)
			for (const { values } of table.rows) {
				const value = values[index];
				if (typeof value === "number" && value > 0 && kind === "mass")
					masses.add(Number(toBase("mass", value, unit).toPrecision(9)));
			}
	}
	if (masses.size < 3) return 0.001;
	const shows = (step: number): boolean =>
		[...masses].every(
			(m) => Math.abs(m / step - Math.round(m / step)) < 1e-6 * (m / step),
		);
	return [0.1, 0.01, 0.001].find(shows) ?? 0.0001;
}
