import {
	covariance,
	idsOf,
	input,
	type Kind,
	meanOf,
	type NotKnown,
	normal,
	plus,
	type Quantity,
	significant,
	stated,
	type UnitOf,
	withoutReadingErrors,
} from "../quantity";
import { normalQuantile, studentTQuantile } from "../stats";
import { criticalRangeFactor } from "./range-factors";

/** Scatter of a determination, from replicates of one char or of several. */
export interface Scatter {
	/** Standard deviation of one determination, in the unit of the values. */
	readonly standardDeviation: number;
	readonly degreesOfFreedom: number;
	/** Where it comes from, in words. */
	readonly from: string;
}

/**
 * The least scatter of one determination, relative to its value: portions of one jar differ, and a balance does not show it. Two can lie close together by luck, and one by itself shows nothing. A choice
 * of this library, without a source; replicates that scatter more take its place.
 */
export const leastScatter = 0.01;

function varianceSum(values: readonly number[]): number {
	const mean = values.reduce((a, b) => a + b, 0) / values.length;
	return values.reduce((sum, v) => sum + (v - mean) ** 2, 0);
}

/**
 * Scatter pooled over several sets of replicates, as if all scattered alike: s² = Σ Σ (x - mean)²/Σ (n - 1). Sets of one say nothing. Degrees of freedom 0 where none has a replicate.
 */
export function pooledScatter(
	sets: readonly (readonly number[])[],
	from: string,
): Scatter {
	const repeated = sets.filter((s) => s.length > 1);
	const degreesOfFreedom = repeated.reduce((sum, s) => sum + s.length - 1, 0);
	const squares = repeated.reduce((sum, s) => sum + varianceSum(s), 0);
	return {
		standardDeviation:
			degreesOfFreedom === 0 ? 0 : Math.sqrt(squares / degreesOfFreedom),
		degreesOfFreedom,
		from,
	};
}

/** The variance of a mean that comes from what the values do not share, in their unit squared. */
function ownVariance(values: readonly Quantity[]): number {
	const n = values.length;
	const all = values.reduce((sum, v) => sum + v.standardUncertainty ** 2, 0);
	let shared = 0;
	for (let i = 0; i < n; i++)
		for (let j = 0; j < i; j++) shared += covariance(values[i], values[j]);
	const pairs = (n * (n - 1)) / 2;
	return Math.max(0, all - (pairs === 0 ? 0 : (n * shared) / pairs)) / n ** 2;
}

/**
 * Mean of determinations. Their scatter is the measure of all that differs from one to the next (the char itself, the furnace, the hand, the reading), in place of the readings' own
 * errors, never both; what they share (a moisture, a sieve, a cylinder) stays. A few determinations that happen to lie close together, or one by itself, do not make an interval too short: it is never shorter than the
 * readings explain, nor than portions that scatter by 1 % of the value would make it.
 *
 * @param values at least one
 * @param of what was determined on what; it names the scatter in the trace and must distinguish one set from another
 */
export function meanOfDeterminations<K extends Kind>(
	values: readonly Quantity<K>[],
	of: string,
	scatter: Scatter,
): Quantity<K> {
	const mean = meanOf(values);
	const n = values.length;
	const upper = 0.975;
	const reading = Math.sqrt(ownVariance(values));
	const least = (leastScatter * Math.abs(mean.value)) / Math.sqrt(n);
	const scattered = scatter.standardDeviation / Math.sqrt(n);
	const scatterCounts =
		scatter.degreesOfFreedom > 0 &&
		studentTQuantile(upper, scatter.degreesOfFreedom) * scattered >
			normalQuantile(upper) * Math.max(reading, least);
	if (!scatterCounts && reading >= least) return mean;
	const [size, degreesOfFreedom, from] = scatterCounts
		? [
				Math.max(scattered, reading),
				scatter.degreesOfFreedom,
				`${scatter.from}: ${of}`,
			]
		: [
				least,
				Number.POSITIVE_INFINITY,
				`at least ${100 * leastScatter} % of the value for one determination (a choice of this library): ${of}`,
			];
	const bare = withoutReadingErrors(mean);
	// Readings that all values share, such as those of one moisture, are no scatter: what went with them is put back.
	const shared = Math.max(
		0,
		mean.standardUncertainty ** 2 -
			bare.standardUncertainty ** 2 -
			reading ** 2,
	);
	return plus(
		bare,
		input(
			mean.kind,
			0,
			mean.unit as UnitOf<K>,
			normal(Math.sqrt(size ** 2 + shared), degreesOfFreedom),
			{
				symbol: "\\delta_{scatter}",
				meaning: `scatter of the mean of ${n}: ${of}`,
				source: stated(from),
				computedFrom: idsOf([mean])[0],
			},
		) as Quantity<K> as Parameters<typeof plus<K>>[1],
	);
}

/** What replicates say about each other. */
export interface Agreement {
	readonly is:
		| "none in use"
		| "one determination"
		| "within the limit"
		| "beyond the limit"
		| "no limit known"
		| "with limits";
	/** Largest minus smallest, in the unit of the values; 0 for one. */
	readonly range: number;
	/** The range that was allowed; 0 where no limit is known. */
	readonly allowed: number;
	readonly sentence: string;
	/** What to do; "" where nothing needs doing. */
	readonly advice: string;
}

const digits = (x: number): string => significant(x, 2);

/** A repeatability limit r, or that none was given. */
export type RepeatabilityLimit<K extends Kind = Kind> =
	| { readonly is: "limit"; readonly r: Quantity<K> }
	| NotKnown;

/** What can be said of fewer than two values. */
export function withoutRange(determinations: number): Agreement {
	if (determinations === 0)
		return {
			is: "none in use",
			range: 0,
			allowed: 0,
			sentence: "Every determination is left out.",
			advice: "Determine it again.",
		};
	return determinations < 2
		? {
				is: "one determination",
				range: 0,
				allowed: 0,
				sentence: "One determination: a slip would not show.",
				advice: "Determine it a second time on another portion.",
			}
		: {
				is: "with limits",
				range: 0,
				allowed: 0,
				sentence: `${determinations} determinations that gave limits, which have no range.`,
				advice: "",
			};
}

/**
 * Holds replicates against a repeatability limit r: a range of n results up to r f(n)/2.8 is what 95 of 100 sets keep within (ISO 5725-6; from memory). Without a limit it says whether the
 * readings explain the range.
 *
 * @param limit r of the method, from the reader's own copy of the standard
 */
export function agreementOf<K extends Kind>(
	values: readonly Quantity<K>[],
	limit: RepeatabilityLimit<K>,
): Agreement {
	const n = values.length;
	if (n < 2) return withoutRange(1);
	const unit = values[0].unit as UnitOf<K>;
	const numbers = values.map((v) => v.in(unit));
	const range = Math.max(...numbers) - Math.min(...numbers);
	const shown = unit === "1" || unit === "pH" ? "" : ` ${unit}`;
	if (limit.is === "not known") {
		const explained =
			criticalRangeFactor(n) * Math.sqrt(ownVariance(values) * n);
		return {
			is: "no limit known",
			range,
			allowed: 0,
			sentence: `Within ${digits(range)}${shown}; the readings explain ${digits(explained)}${shown}.`,
			advice:
				range > explained
					? "None; the scatter beyond the readings is in the interval."
					: "",
		};
	}
	const allowed = (limit.r.in(unit) * criticalRangeFactor(n)) / 2.8;
	const within = range <= allowed * (1 + 1e-12);
	return {
		is: within ? "within the limit" : "beyond the limit",
		range,
		allowed,
		sentence: `Within ${digits(range)}${shown}; ${digits(allowed)}${shown} is allowed for ${n}.`,
		advice: within
			? ""
			: n === 2
				? "Look for the cause (constant mass? one jar, well mixed? one furnace shelf?) and make two more determinations: if all four then lie within 3.6/2.8 of the limit their mean stands, else their median, and the report says so (ISO 5725-6; from memory)."
				: "Look for the cause, and report the median and the range instead of the mean (ISO 5725-6; from memory).",
	};
}
