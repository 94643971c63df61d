import { refuse, requireNumbers } from "../problem";
import { sampleStandardDeviation } from "../stats";
import { input, normal, rectangular, stated } from "./input";
import type { Kind } from "./kinds";
import { requireOptions } from "./options";
import type { Quantity } from "./quantity";
import { described, type TypedDescription, typedRules } from "./typed-in";
import type { UnitOf } from "./units";

/** The last digit that any of the readings has: 0.01 for 24.1 and 24.15. */
function lastDigit(readings: readonly number[]): number {
	const decimals = readings.map((x) => {
		const [digits, exponent = "0"] = x.toExponential().split("e");
		return Math.max(0, (digits.split(".")[1] ?? "").length - Number(exponent));
	});
	return 10 ** -Math.max(...decimals);
}

/**
 * Mean of repeated readings of the same thing, type A (JCGM 100:2008, 4.2): u = s/sqrt(n), Student's t with n - 1 degrees of freedom. With two or three readings that
 * distribution has no variance (JCGM 101:2008, 6.4.9.4) and the source says so. Readings that agree are no better than their last digit: where s/sqrt(n) is less than that digit's
 * u = digit/sqrt(12) (JCGM 100, F.2.2.1, from memory), that is taken.
 *
 * @param readings at least two, in `unit`
 * @throws ProblemError for fewer than two readings
 * @example
 * quantity.repeatedReadings("volume", [24.1, 24.2, 24.3], "mL") // => "24.200 mL (u 0.058 mL)"
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
	const digit = lastDigit(readings);
	const rounded = scatter < digit / Math.sqrt(12);
	const few =
		n <= 3 && !rounded
			? `; with ${n} readings Student's t has no variance (JCGM 101), so give an interval, not a Monte Carlo standard deviation`
			: "";
	const evidence = rounded ? rectangular(digit / 2) : normal(scatter, n - 1);
	return input(kind, mean, unit, evidence, {
		computedFrom: readings.join(" "),
		...described(description),
		source:
			described(description).source ??
			stated(
				`mean of ${n} readings: ${readings.join(", ")} ${unit}${rounded ? `, which agree to within their last digit (${digit})` : ""}${few}`,
			),
	});
}
