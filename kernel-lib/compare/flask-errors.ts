import type { LinkedErrors, SharedErrors } from "../quantity";
import { fewReadingsFactor } from "./few-readings";

/** What the errors of flasks are made of, in (mg/g)^2; index i is observation i. */
export interface FlaskErrors {
	/** By the readings of the flask alone: the least that a scatter of replicates is believed to be. */
	readonly ownVariance: Float64Array;
	/** By what differs from one replicate to the next (what the jar lost). */
	readonly replicateVariance: Float64Array;
	/** Both together as they count where no scatter of replicates holds them: with room for what is known from few readings only. */
	readonly aloneVariance: Float64Array;
	readonly shared: SharedErrors["shared"];
}

/**
 * Errors of flasks whose number moves with two linked results, the uptake and the residue.
 *
 * @param byFirst d(number)/d(first) of each flask
 * @param bySecond d(number)/d(second)
 */
export function flaskErrorsOf(
	{ own, shared }: LinkedErrors,
	byFirst: Float64Array,
	bySecond: Float64Array,
): FlaskErrors {
	const count = byFirst.length;
	const ownVariance = new Float64Array(count);
	const replicateVariance = new Float64Array(count);
	const aloneVariance = new Float64Array(count);
	for (const { input, at, first, second } of own) {
		const variance = (byFirst[at] * first + bySecond[at] * second) ** 2;
		(input.scope === "replicate" ? replicateVariance : ownVariance)[at] +=
			variance;
		aloneVariance[at] +=
			variance * fewReadingsFactor(input.degreesOfFreedom) ** 2;
	}
	return {
		ownVariance,
		replicateVariance,
		aloneVariance,
		shared: shared.map(({ input, node, first, second }) => ({
			input,
			node,
			effect: Float64Array.from(
				first,
				(a, i) => byFirst[i] * a + bySecond[i] * second[i],
			),
		})),
	};
}
