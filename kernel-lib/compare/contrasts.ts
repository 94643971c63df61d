import { type AdditiveModel, weightsOf } from "./additive-model";
import type { Observation } from "./observations";
import type { Pair } from "./pairs";
import { type Unit, type UnitLevel, unitsOf } from "./units";

/** A unit's weight in a difference. */
export interface WeightedUnit {
	readonly unit: Unit;
	readonly weight: number;
}

/** Treated minus control as a weighted sum of units. */
export type Contrast =
	| { readonly estimable: true; readonly parts: readonly WeightedUnit[] }
	| { readonly estimable: false };

/**
 * The difference of a pair. A treatment is either in the model, or stands "beside" it: then it is the mean of the units given for it, less what the model says
 * of the days that they stood on. That is how flasks that gave only a bound take part, at their limit, without touching the scatter or the days.
 */
export function contrastOf(
	model: AdditiveModel,
	pair: Pair,
	beside: ReadonlyMap<string, readonly Unit[]>,
): Contrast {
	const combination = new Float64Array(model.columns);
	const direct: WeightedUnit[] = [];
	const sides = [
		{ treatment: pair.treatment, sign: 1 },
		{ treatment: pair.control, sign: -1 },
	];
	const unknownDays = new Map<string, number>();
	for (const { treatment, sign } of sides) {
		const units = beside.get(treatment) ?? [];
		if (units.length === 0) {
			const column = model.treatments.indexOf(treatment);
			if (column < 0) return { estimable: false };
			combination[column] += sign;
			continue;
		}
		for (const unit of units) {
			direct.push({ unit, weight: sign / units.length });
			for (const [day, share] of unit.days) {
				const k = model.days.indexOf(day);
				const amount = (sign * share) / units.length;
				if (k < 0) unknownDays.set(day, (unknownDays.get(day) ?? 0) + amount);
				if (k > 0) combination[model.treatments.length + k - 1] -= amount;
			}
		}
	}
	// A day on which no flask gave a value has no effect that could be taken off; it need not be, where both sides stood on it alike.
	for (const amount of unknownDays.values())
		if (Math.abs(amount) > 1e-9) return { estimable: false };
	const inModel = weightsOf(model, combination);
	if (!inModel.estimable) return { estimable: false };
	const parts = [
		...model.units.map((unit, i) => ({ unit, weight: inModel.weights[i] })),
		...direct,
	].filter((p) => Math.abs(p.weight) > 1e-12);
	return { estimable: true, parts };
}

/** Units of a treatment with every flask in it, those that gave a bound at their limit. */
export function unitsAtLimit(
	list: readonly Observation[],
	treatment: string,
	level: UnitLevel,
): Unit[] {
	return unitsOf(
		list,
		list.flatMap((o, i) => (o.treatment === treatment ? [i] : [])),
		level,
	);
}

export function contrastEstimate(parts: readonly WeightedUnit[]): number {
	// Weights of a difference sum to zero: taking off one unit's mean first keeps the digits of small differences.
	const origin = parts.length > 0 ? parts[0].unit.mean : 0;
	return parts.reduce((s, p) => s + p.weight * (p.unit.mean - origin), 0);
}
