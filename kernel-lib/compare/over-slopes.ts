import { refitted } from "./additive-model";
import type { Carriable } from "./carriable";
import { carriedTo, type Taken } from "./carry";
import {
	differenceOn,
	type Ground,
	type Limits,
	type PairDifference,
} from "./differences";
import type { Observations } from "./observations";
import type { Pair } from "./pairs";
import type { SpreadRule } from "./settings";
import { endsOf, type Slope } from "./slope";
import { spreadOf } from "./spread";
import type { UnitModel } from "./unit-model";
import { type UnitLevel, unitsOf } from "./units";
import type { Interval } from "./word";

/** A trial whose flasks can be carried along any slope. */
export interface Carrier {
	readonly carriable: Carriable;
	/** mg/L */
	readonly at: number;
	readonly slopes: ReadonlyMap<string, Slope>;
	/** Degrees of freedom that slopes have used up, by treatment. */
	readonly used: ReadonlyMap<string, number>;
	readonly spread: SpreadRule;
}

/** A slope that was measured on differences between units has used up one of their degrees of freedom. */
export function usedBy(
	slopes: ReadonlyMap<string, Slope>,
	level: UnitLevel,
): ReadonlyMap<string, number> {
	return new Map(
		[...slopes].map(([treatment, slope]) => [
			treatment,
			slope.is === "measured" && (!slope.withinSoaks || level === "flask")
				? 1
				: 0,
		]),
	);
}

export function groundOf(
	{ used, spread }: Carrier,
	observations: Observations,
	unitModel: UnitModel,
): Ground {
	return {
		observations,
		unitModel,
		spread: spreadOf(unitModel.model, observations, spread, used),
	};
}

/** The flasks carried along other slopes, and what the same units then give. */
function groundAt(
	carrier: Carrier,
	taken: ReadonlyMap<string, Taken>,
	{ scope, level, model }: UnitModel,
	edge: number,
): Ground {
	const { carriable, at } = carrier;
	const observations = carriedTo(carriable, at, taken, edge);
	const valued = observations.list.flatMap((o, i) =>
		o.side === "value" ? [i] : [],
	);
	const units = unitsOf(observations.list, valued, level);
	return groundOf(carrier, observations, {
		scope,
		level,
		model: refitted(model, units),
	});
}

const union = (a: Interval, b: Interval): Interval => ({
	low: Math.min(a.low, b.low),
	high: Math.max(a.high, b.high),
});

/** A difference that holds for both, with the estimate of the first. */
function both(a: PairDifference, b: PairDifference): PairDifference {
	if (a.is === "interval" && b.is === "interval") {
		const { low, high } = a.interval;
		return {
			...a,
			interval: union(a.interval, b.interval),
			oneSided: union(a.oneSided, b.oneSided),
			reckoned: {
				...a.reckoned,
				low: (b.interval.low < low ? b : a).reckoned.low,
				high: (b.interval.high > high ? b : a).reckoned.high,
			},
		};
	}
	if (a.is === "one-sided" && b.is === "one-sided") {
		const further = (x: Interval, y: Interval): boolean =>
			a.side === "at least" ? y.low < x.low : y.high > x.high;
		return {
			...a,
			without: union(a.without, b.without),
			atLimit: union(a.atLimit, b.atLimit),
			reckoned: {
				without: (further(a.without, b.without) ? b : a).reckoned.without,
				atLimit: (further(a.atLimit, b.atLimit) ? b : a).reckoned.atLimit,
			},
		};
	}
	return a.is === "missing" ? a : b;
}

/** What is known of a difference whatever the slopes are that were not measured. */
export interface OverSlopes {
	/** Holds for every slope that is allowed for, each treatment's by itself. */
	readonly difference: PairDifference;
	/** Smallest statistic of all of them, 0 where their signs differ. */
	readonly statistic: number;
}

const statisticOf = (d: PairDifference): number =>
	d.is === "interval" ? d.estimate / Math.sqrt(d.errors.variance) : 0;

/** So far beyond the residues of a pair its curves are taken to be equally steep. Our decision. */
export const nearWithin = 1.1;

/** The residue nearest to that of the comparison that is still near what the flasks of a pair left. */
function edgeOf({ carriable, at }: Carrier, pair: Pair): number {
	const residues = carriable.list
		.filter(
			(f) =>
				f.side === "value" &&
				(f.treatment === pair.treatment || f.treatment === pair.control),
		)
		.map((f) => f.residue);
	if (residues.length === 0) return at;
	const low = Math.min(...residues) / nearWithin;
	const high = Math.max(...residues) * nearWithin;
	return Math.min(Math.max(at, low), high);
}

/**
 * The difference of a pair over all slopes that are allowed for. Near the residues that its flasks left both curves are equally steep; beyond these each has a slope of its own, for curves may cross. It is enough to look at
 * the ends of the range: an end of the interval moves one way with each slope.
 */
export function overSlopes(
	carrier: Carrier,
	pair: Pair,
	middle: PairDifference,
	taken: ReadonlyMap<string, Taken>,
	unitModel: UnitModel,
	limits: Limits,
): OverSlopes {
	if (middle.is === "missing") return { difference: middle, statistic: 0 };
	const edge = edgeOf(carrier, pair);
	let difference: PairDifference = middle;
	let statistic = statisticOf(middle);
	for (const combination of combinationsOf(carrier, pair, edge)) {
		const there = differenceOn(
			groundAt(carrier, new Map([...taken, ...combination]), unitModel, edge),
			pair,
			middle.index,
			limits,
		);
		difference = both(difference, there);
		const own = statisticOf(there);
		if (own * statistic <= 0) statistic = 0;
		else if (Math.abs(own) < Math.abs(statistic)) statistic = own;
	}
	return { difference, statistic };
}

/** The ends of what is allowed for: near the residues of the pair one end for both sides, beyond them each end with each. */
function combinationsOf(
	{ slopes, at }: Carrier,
	pair: Pair,
	edge: number,
): (readonly [string, Taken])[][] {
	const sides = [pair.treatment, pair.control].map((treatment) => {
		const slope = slopes.get(treatment) as Slope;
		return { treatment, slope, ends: endsOf(slope) };
	});
	if (sides.every(({ ends }) => ends.length === 1)) return [];
	return ([0, -1] as const).flatMap((end) => {
		const [treated, control] = sides.map(({ treatment, slope, ends }) => {
			const near = ends.at(end) as number;
			return (edge === at ? [near] : ends).map(
				(beyond) => [treatment, { slope, near, beyond }] as const,
			);
		});
		return treated.flatMap((t) => control.map((c) => [t, c]));
	});
}
