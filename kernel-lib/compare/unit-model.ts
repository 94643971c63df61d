import { type AdditiveModel, fitAdditiveModel } from "./additive-model";
import type { Observation } from "./observations";
import { type UnitLevel, unitsOf } from "./units";
import type { VerdictScope } from "./verdict";

/** What counts as a unit, and the model fitted to the units that gave values. */
export interface UnitModel {
	readonly scope: VerdictScope;
	readonly level: UnitLevel;
	readonly model: AdditiveModel;
}

/** With fewer degrees of freedom between soaks there is hardly anything to judge by, and the verdict stays with the lots at hand. Our decision. */
export const fewestSoakDegrees = 2;

/**
 * The highest level that leaves something to judge scatter by: soaks, else flasks (then the verdict is about these lots), else nothing but the measuring error.
 * Flasks of one soak never stand in for soaks: once soaks can be distinguished, they are what counts.
 */
export function unitModelOf(list: readonly Observation[]): UnitModel {
	const valued = list.flatMap((o, i) => (o.side === "value" ? [i] : []));
	// Where no soak is recorded each treatment is one, which leaves no degrees of freedom.
	const ofSoaks = fitAdditiveModel(unitsOf(list, valued, "soak"));
	if (ofSoaks.degreesOfFreedom >= fewestSoakDegrees)
		return { scope: "treatment", level: "soak", model: ofSoaks };
	const model = fitAdditiveModel(unitsOf(list, valued, "flask"));
	return {
		scope: model.degreesOfFreedom >= 1 ? "these lots" : "measuring error only",
		level: "flask",
		model,
	};
}
