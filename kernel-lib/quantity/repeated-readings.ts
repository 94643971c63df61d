import { refuse, requireNumbers } from "../problem";
import { sampleStandardDeviation } from "../stats";
import { input, normal, stated } from "./input";
import type { Kind } from "./kinds";
import { requireOptions } from "./options";
import type { Quantity } from "./quantity";
import { described, type TypedDescription, typedRules } from "./typed-in";
import type { UnitOf } from "./units";

/**
 * Mean of repeated readings of the same thing, type A (JCGM 100:2008, 4.2): u = s/sqrt(n), Student's t with n - 1 degrees of freedom. With two or three readings that
 * distribution has no variance (JCGM 101:2008, 6.4.9.4) and the source says so.
 *
 * @param readings at least two, in `unit`
 * @throws ProblemError for fewer than two readings
 * @example
 * quantity.repeatedReadings("volume", [24.1, 24.2, 24.3], "mL") // => "(24.200 ± 0.058) mL"
 */
export function repeatedReadings<K extends Kind>(
	kind: K,
	readings: readonly number[],
	unit: UnitOf<K>,
	description: Partial<TypedDescription> = {},
): Quantity<K> {
	requireOptions(description, typedRules, "repeatedReadings");
	requireNumbers(readings, "repeatedReadings");
	const n = readings.length;
	if (n < 2)
		refuse(
			"too-few-readings",
			"repeatedReadings",
			`${n} ${n === 1 ? "reading" : "readings"}`,
			"at least two readings, which scatter needs",
			"State the uncertainty of a single reading instead.",
		);
	const mean = readings.reduce((sum, x) => sum + x, 0) / n;
	const scatter = sampleStandardDeviation(readings) / Math.sqrt(n);
	const few =
		n <= 3
			? `; with ${n} readings Student's t has no variance (JCGM 101), so give an interval, not a Monte Carlo standard deviation`
			: "";
	return input(kind, mean, unit, normal(scatter, n - 1), {
		computedFrom: readings.join(" "),
		...described(description),
		source:
			described(description).source ??
			stated(`mean of ${n} readings: ${readings.join(", ")} ${unit}${few}`),
	});
}
