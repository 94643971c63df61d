import { decimalsFor, fixed, significant } from "../quantity";
import type { LineValue } from "./linked-line";

/** Value, standard error, low and high end as texts, all to the place that the error deserves. */
export function valueTextsOf(q: LineValue): string[] {
	if (q.standardError.is === "not known")
		return [significant(q.value, 3), "none", "none", "none"];
	const decimals = Math.max(0, decimalsFor(q.standardError.value));
	const text = (v: number): string => fixed(v, decimals);
	return [
		text(q.value),
		text(q.standardError.value),
		q.low.is === "value" ? text(q.low.value) : "none",
		q.high.is === "value" ? text(q.high.value) : "none",
	];
}
