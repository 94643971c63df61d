import { decimalsFor, fixed, significant } from "../quantity";
import type { CharProperty } from "./char-property";

/** Rounds to two digits of half its interval, which few replicates make much wider than u; to one digit of u where there is none. */
export function placesOf({
	outcome,
	interval,
}: Pick<CharProperty, "outcome" | "interval">): (x: number) => string {
	if (interval.is === "interval") {
		const decimals = decimalsFor((interval.upper - interval.lower) / 2);
		return (x) => fixed(x, decimals);
	}
	const u = outcome.is === "value" ? outcome.quantity.standardUncertainty : 0;
	return (x) =>
		u > 0 ? fixed(x, Math.max(0, decimalsFor(u) - 1)) : significant(x, 3);
}
