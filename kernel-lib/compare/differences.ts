import { studentTQuantile } from "../stats";
import { type BoundSides, boundSidesOf } from "./bound-sides";
import {
	boundUncertainty,
	type ContrastErrors,
	contrastCovariance,
	contrastErrors,
	flaskWeightsOf,
} from "./contrast-errors";
import {
	contrastEstimate,
	contrastOf,
	unitsAtLimit,
	type WeightedUnit,
} from "./contrasts";
import { type Joint, jointOf } from "./joint";
import type { Observations } from "./observations";
import type { Missing } from "./obstacle";
import type { Pair } from "./pairs";
import {
	type Reckoned,
	type Reckoning,
	reachOf,
	reckonedFrom,
	standardErrorOf,
} from "./reckoning";
import type { Spread } from "./spread";
import type { UnitModel } from "./unit-model";
import type { Unit } from "./units";
import type { Interval } from "./word";

/** Treated minus control of one pair, before any word is chosen. */
export type PairDifference =
	| { readonly is: "missing"; readonly why: Missing }
	| {
			readonly is: "interval";
			readonly estimate: number;
			readonly interval: Interval;
			/** Limits by a one-sided test each. */
			readonly oneSided: Interval;
			readonly errors: Pick<ContrastErrors, "variance" | "degreesOfFreedom">;
			readonly reckoned: Extract<Reckoned, { is: "interval" }>;
			/** Place in the family of simultaneous intervals. */
			readonly index: number;
	  }
	| {
			/** Some flask of the pair gave only a bound: one end is all that is known. */
			readonly is: "one-sided";
			readonly side: "at least" | "at most";
			readonly flasks: readonly string[];
			/** The interval without the flasks that gave bounds (with them, where a group has no others), and with all of them at their limit. */
			readonly without: Interval;
			readonly atLimit: Interval;
			readonly errors: ContrastErrors;
			/** Of both intervals the end that is known. */
			readonly reckoned: {
				readonly without: Reckoning;
				readonly atLimit: Reckoning;
			};
			readonly index: number;
	  };

export interface Differences {
	/** By treatment. */
	readonly byTreatment: ReadonlyMap<string, PairDifference>;
	readonly joint: Joint;
	/** Members of the family of simultaneous intervals. */
	readonly family: readonly {
		readonly pair: Pair;
		readonly estimate: number;
		readonly errors: ContrastErrors;
	}[];
}

interface Member {
	readonly pair: Pair;
	readonly sides: Exclude<BoundSides, { is: "conflict" }>;
	readonly errors: ContrastErrors;
	readonly estimate: number;
	/** The same difference with every flask that gave a bound at its limit. */
	readonly atLimit: readonly WeightedUnit[];
}

function has(observations: Observations, treatment: string): boolean {
	return observations.list.some((o) => o.treatment === treatment);
}

/** Groups with nothing but bounds: they stand beside the model, at their limit. */
function groupsOfBounds(
	{ list }: Observations,
	{ level }: UnitModel,
): Map<string, Unit[]> {
	const beside = new Map<string, Unit[]>();
	const valued = new Set(
		list.flatMap((o) => (o.side === "value" ? [o.treatment] : [])),
	);
	for (const treatment of new Set(list.map((o) => o.treatment)))
		if (!valued.has(treatment))
			beside.set(treatment, unitsAtLimit(list, treatment, level));
	return beside;
}

/** Both groups of a pair beside the model, where they hold a bound: with all their flasks, bounds at their limit. Spread and day effects stay those of the values. */
function withBoundsAtLimit(
	pair: Pair,
	{ list }: Observations,
	{ level }: UnitModel,
	beside: ReadonlyMap<string, readonly Unit[]>,
): Map<string, readonly Unit[]> {
	const all = new Map(beside);
	for (const treatment of [pair.treatment, pair.control])
		if (
			!beside.has(treatment) &&
			list.some((o) => o.treatment === treatment && o.side !== "value")
		)
			all.set(treatment, unitsAtLimit(list, treatment, level));
	return all;
}

function memberOrMissing(
	pair: Pair,
	observations: Observations,
	unitModel: UnitModel,
	spread: Spread,
	beside: ReadonlyMap<string, readonly Unit[]>,
): Member | Missing {
	if (pair.control === "") return "no control";
	if (!has(observations, pair.treatment)) return "no treated flask";
	if (!has(observations, pair.control)) return "no control flask";
	const sides = boundSidesOf(observations.list, pair);
	if (sides.is === "conflict") return "bounds on both sides";
	const contrast = contrastOf(unitModel.model, pair, beside);
	const atLimit = contrastOf(
		unitModel.model,
		pair,
		withBoundsAtLimit(pair, observations, unitModel, beside),
	);
	if (!contrast.estimable || !atLimit.estimable) return "no common day";
	const errors = contrastErrors(contrast.parts, observations, spread);
	if (!(errors.variance > 0)) return "no spread";
	return {
		pair,
		sides,
		errors,
		estimate: contrastEstimate(contrast.parts),
		atLimit: atLimit.parts,
	};
}

/** A sum of units, its interval made wider by the expanded uncertainty (k = 2) of the limits that it stands on. */
function reckonedOn(
	parts: readonly WeightedUnit[],
	errors: ContrastErrors,
	criticalValue: number,
	observations: Observations,
): Reckoning {
	return reckonedFrom(
		contrastEstimate(parts),
		flaskWeightsOf(parts, observations.list.length),
		errors,
		observations,
		criticalValue,
		2 * boundUncertainty(parts, observations),
	);
}

function intervalAround(reckoning: Reckoning): Interval {
	const reach = reachOf(reckoning);
	return {
		low: reckoning.estimate - reach,
		high: reckoning.estimate + reach,
	};
}

/** Everything that a difference is computed from. */
export interface Ground {
	readonly observations: Observations;
	readonly unitModel: UnitModel;
	readonly spread: Spread;
}

/** What the ends of intervals are computed with. */
export interface Limits {
	/** Of the simultaneous interval. */
	readonly criticalValue: number;
	/** Of all intervals together, and of each one-sided limit. */
	readonly confidence: number;
}

/** The difference of a pair that has one, with a critical value that is known already. */
function pairDifference(
	m: Member,
	index: number,
	{ criticalValue, confidence }: Limits,
	observations: Observations,
): PairDifference {
	const { errors, estimate, sides } = m;
	if (sides.is === "no bounds") {
		const reckoning = reckonedFrom(
			estimate,
			errors.flaskWeights,
			errors,
			observations,
			criticalValue,
		);
		const oneSided =
			studentTQuantile(confidence, errors.degreesOfFreedom) *
			standardErrorOf(reckoning);
		return {
			is: "interval",
			estimate,
			interval: intervalAround(reckoning),
			oneSided: { low: estimate - oneSided, high: estimate + oneSided },
			errors,
			reckoned: {
				is: "interval",
				estimate: reckoning,
				low: reckoning,
				high: reckoning,
			},
			index,
		};
	}
	const reckoned = {
		without: reckonedOn(errors.parts, errors, criticalValue, observations),
		atLimit: reckonedOn(m.atLimit, errors, criticalValue, observations),
	};
	return {
		is: "one-sided",
		side: sides.is,
		flasks: sides.flasks,
		without: intervalAround(reckoned.without),
		atLimit: intervalAround(reckoned.atLimit),
		errors,
		reckoned,
		index,
	};
}

/** The same pair on other ground (flasks carried along other slopes), with the place and the critical value that it has in the family. */
export function differenceOn(
	{ observations, unitModel, spread }: Ground,
	pair: Pair,
	index: number,
	limits: Limits,
): PairDifference {
	const beside = groupsOfBounds(observations, unitModel);
	const m = memberOrMissing(pair, observations, unitModel, spread, beside);
	return typeof m === "string"
		? { is: "missing", why: m }
		: pairDifference(m, index, limits, observations);
}

/** Differences of all pairs with intervals that hold for all of them together. */
export function differencesOf(
	pairs: readonly Pair[],
	{ observations, unitModel, spread }: Ground,
	confidence: number,
): Differences {
	const beside = groupsOfBounds(observations, unitModel);
	const byTreatment = new Map<string, PairDifference>();
	const family: Member[] = [];
	for (const pair of pairs) {
		const m = memberOrMissing(pair, observations, unitModel, spread, beside);
		if (typeof m === "string")
			byTreatment.set(pair.treatment, { is: "missing", why: m });
		else family.push(m);
	}
	const joint = jointOf(
		family.map((a) =>
			family.map((b) =>
				contrastCovariance(a.errors, b.errors, observations, spread),
			),
		),
		family.map((m) => m.errors.degreesOfFreedom),
		confidence,
	);
	family.forEach((m, index) => {
		byTreatment.set(
			m.pair.treatment,
			pairDifference(
				m,
				index,
				{ criticalValue: joint.criticalValues[index], confidence },
				observations,
			),
		);
	});
	return { byTreatment, joint, family };
}
