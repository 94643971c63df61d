import type { AdditiveModel } from "./additive-model";
import type { Observations } from "./observations";

/** How far units of one treatment scatter. */
export interface Spread {
	/** Standard deviation between units that is used, mg/g; 0 where there is nothing to take it from. */
	readonly deviation: number;
	readonly degreesOfFreedom: number;
	/** True where the units agreed better than their own reading errors allow, so that these were taken instead. */
	readonly fromReadings: boolean;
}

/**
 * Pooled standard deviation between units. It holds the independent reading errors already. Where the units happen to agree better than those errors allow
 * (equal titres, rounded to a drop), the reading errors are the least that is believed.
 */
export function spreadOf(
	model: AdditiveModel,
	{ errors }: Observations,
): Spread {
	const { degreesOfFreedom, residualSumOfSquares, units } = model;
	if (degreesOfFreedom < 1)
		return { deviation: 0, degreesOfFreedom: 0, fromReadings: false };
	const scatter = residualSumOfSquares / degreesOfFreedom;
	let readings = 0;
	for (const u of units)
		for (const i of u.members)
			readings += errors.ownVariance[i] / u.members.length ** 2 / units.length;
	return {
		deviation: Math.sqrt(Math.max(scatter, readings)),
		degreesOfFreedom,
		fromReadings: readings > scatter,
	};
}
