import { sampleStandardDeviation } from "../stats";
import { meanOf, plus } from "./arithmetic";
import { plainNumber } from "./format";
import { sensitivities } from "./graph";
import { idsOf } from "./ids";
import { type Evidence, exact, input, normal, stated } from "./input";
import type { Kind } from "./kinds";
import { nodeOf, type Quantity, type QuantityNode } from "./quantity";
import { type UnitOf, unitFactor } from "./units";

/** Variance of each repeat by the reading errors that none of the others shares, in the unit of the first. */
function ownVariances(values: readonly Quantity[]): number[] {
	const all = values.map((v) => sensitivities(nodeOf(v) as QuantityNode));
	const counts = new Map<string, number>();
	for (const of of all)
		for (const key of of.keys()) counts.set(key, (counts.get(key) ?? 0) + 1);
	const factor = unitFactor(values[0].kind, values[0].unit);
	return all.map((of) => {
		let variance = 0;
		for (const [key, s] of of)
			if (s.input.scope === "reading" && counts.get(key) === 1)
				variance += (s.derivative * s.input.uncertainty) ** 2;
		return variance / factor ** 2;
	});
}

function numbers<K extends Kind>(values: readonly Quantity<K>[]): number[] {
	return values.map((v) => v.in(values[0].unit as UnitOf<K>));
}

const sum = (list: readonly number[]): number =>
	list.reduce((a, b) => a + b, 0);

/**
 * How far repeats scatter beyond their reading error: standard deviation of one, in the unit of the first, with n - 1 degrees of freedom; exact where the reading error explains them. At least two repeats.
 */
export function scatterBeyondReading(values: readonly Quantity[]): Evidence {
	const n = values.length;
	const own = sum(ownVariances(values)) / n;
	const observed = sampleStandardDeviation(numbers(values)) ** 2;
	// A hair of tolerance: what rounding leaves of equal readings is no scatter.
	return observed <= own * (1 + 1e-9)
		? exact
		: normal(Math.sqrt(observed - own), n - 1);
}

/**
 * Mean of repeated readings of one thing, with the larger of their reading error and their observed scatter. What the scatter has beyond the reading error is one more error of the
 * mean, with n - 1 degrees of freedom; everything that uses the mean shares it, and what the repeats have in common (a calibration, a titrant, a blank) stays what it was. One
 * reading has no scatter.
 *
 * @param of what was repeated, in words
 */
export function meanOfRepeats<K extends Kind>(
	values: readonly Quantity<K>[],
	of: string,
): Quantity<K> {
	const mean = meanOf(values);
	const n = values.length;
	if (n < 2) return mean;
	const scatter = scatterBeyondReading(values);
	if (scatter.standardUncertainty === 0) return mean;
	const beyond = input(
		mean.kind as Kind,
		0,
		values[0].unit as UnitOf<Kind>,
		normal(scatter.standardUncertainty / Math.sqrt(n), n - 1),
		{
			symbol: "δ_{scatter}",
			meaning: `scatter of the mean of ${n} beyond the reading error: ${of}`,
			source: stated(
				`standard deviation of ${n} repeats divided by √${n}, less their reading error: ${of}`,
			),
			scope: "reading",
			computedFrom: idsOf(values).join(" "),
		},
	);
	return plus(mean, beyond as Quantity<K> as Parameters<typeof plus<K>>[1]);
}

/**
 * Widest range of n readings that 95 of 100 sets keep, in standard deviations of one reading (critical range factors; ISO 5725-6, table 1, from memory). More than ten count as twenty.
 */
const rangeFactors = [2.8, 3.3, 3.6, 3.9, 4.0, 4.2, 4.3, 4.4, 4.5] as const;
const rangeFactorOfMany = 5.0;

/**
 * Says that repeats lie further apart than their reading error explains, with their range and the limit; "" where they do not. Nothing is left out for it.
 *
 * @param what names them, with a capital: "Titres of flask a"
 * @param unit the unit in which they are told
 */
export function furtherApart<K extends Kind>(
	values: readonly Quantity<K>[],
	what: string,
	unit: UnitOf<K>,
): string {
	if (values.length < 2) return "";
	const toUnit =
		unitFactor(values[0].kind, values[0].unit) /
		unitFactor(values[0].kind, unit);
	const one = Math.sqrt(sum(ownVariances(values)) / values.length) * toUnit;
	return furtherApartThan(
		values.map((v) => v.in(unit)),
		one,
		what,
		unit,
	);
}

/** The same for readings whose error is known by itself: the standard deviation of one. */
export function furtherApartThan(
	readings: readonly number[],
	one: number,
	what: string,
	unit: string,
): string {
	const n = readings.length;
	if (n < 2) return "";
	const [low, high] = [Math.min(...readings), Math.max(...readings)];
	const limit = (rangeFactors[n - 2] ?? rangeFactorOfMany) * one;
	// Without a stated error there is no limit; rounding is no scatter.
	if (one === 0 || high - low <= limit * (1 + 1e-9)) return "";
	const short = (x: number): string => plainNumber(Number(x.toPrecision(3)));
	const inUnit = unit === "" ? "" : ` ${unit}`;
	return `${what} lie from ${short(low)} to ${short(high)}${inUnit}, further apart than reading them explains (${short(limit)}${inUnit}); the scatter is carried. Look for its reason.`;
}
