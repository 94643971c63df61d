import { isLeftOut, type Mark } from "../bench";
import {
	type Kind,
	type Measured,
	type NotKnown,
	named,
	notKnown,
	type Quantity,
	quoted,
} from "../quantity";
import {
	agreementOf,
	meanOfDeterminations,
	pooledScatter,
	type RepeatabilityLimit,
	type Scatter,
} from "./replicates";
import type { PropertyName } from "./standards";

/** Repeatability limits r of the standards, from one's own copies: the largest difference of two determinations that 95 of 100 pairs keep within. */
export type RepeatabilityLimits = Partial<Record<PropertyName, Quantity>>;

/** The values of one property of one char under one condition. */
export interface ReplicateSet {
	readonly sample: string;
	readonly property: PropertyName;
	readonly at: string;
	readonly values: readonly Quantity[];
}

/** A property with its condition, in words. */
export function labelOf(p: {
	readonly property: PropertyName;
	readonly at: string;
}): string {
	return p.at === "" ? p.property : `${p.property} at ${p.at}`;
}

/** Determinations of one property gathered into replicates; those that a deviation leaves out add no value. */
export function setsOf(
	determinations: readonly (Omit<ReplicateSet, "values"> & {
		readonly outcome: Measured<Kind> | NotKnown;
		readonly marks: readonly Mark[];
	})[],
	property: PropertyName,
): ReplicateSet[] {
	const sets = new Map<string, ReplicateSet>();
	for (const d of determinations) {
		if (d.property !== property) continue;
		const { sample, at, outcome } = d;
		const key = JSON.stringify([sample, at]);
		const before = sets.get(key)?.values ?? [];
		const values =
			outcome.is === "value" && !isLeftOut(d) ? [outcome.quantity] : [];
		sets.set(key, { sample, property, at, values: [...before, ...values] });
	}
	return [...sets.values()];
}

/** The limit of a property, where one was given. */
export function limitFor(
	property: PropertyName,
	limits: RepeatabilityLimits,
): RepeatabilityLimit {
	const r = limits[property];
	return r === undefined ? notKnown("no limit was given") : { is: "limit", r };
}

const numbers = (set: ReplicateSet): number[] => set.values.map((v) => v.value);

/**
 * Scatter of one determination: pooled over the chars of the table, without sets that disagree by more than their limit (a slip on one char says nothing about another); such a set
 * stands alone with its own.
 */
export function scatterOf(
	set: ReplicateSet,
	all: readonly ReplicateSet[],
	limits: RepeatabilityLimits,
): Scatter {
	const sound = (s: ReplicateSet): boolean =>
		agreementOf(s.values, limitFor(s.property, limits)).is !==
		"beyond the limit";
	return sound(set)
		? pooledScatter(
				all.filter(sound).map(numbers),
				`standard deviation of replicates of ${set.property}, pooled over the table`,
			)
		: pooledScatter(
				[numbers(set)],
				`standard deviation of the replicates of ${set.property} of ${quoted(set.sample)} alone`,
			);
}

/** Symbol of a mean: "W" -> "W_{mean}", "d_{10}" -> "d_{10, mean}". */
function meanSymbol(symbol: string): string {
	return symbol.endsWith("}")
		? `${symbol.slice(0, -1)}, mean}`
		: `${symbol}_{mean}`;
}

/** Mean of replicates; one and the same quantity wherever it is used, so that its error is one. */
export function meanOfSet(set: ReplicateSet, scatter: Scatter): Quantity {
	const { values } = set;
	const { symbol } = values[0].name;
	const of = `${labelOf(set)} of ${quoted(set.sample)}`;
	const mean = meanOfDeterminations(values, of, scatter);
	return values.length === 1
		? named(mean, symbol, of)
		: named(mean, meanSymbol(symbol), `${of}, mean of ${values.length}`);
}
