import { kept, type LinkedErrors, type SharedErrors } from "../quantity";
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
		shared: shared.map((one) => ({
			input: one.input,
			node: one.node,
			effect: effectOf(one, byFirst, bySecond),
		})),
	};
}

/** Flasks that an input touches: of many flasks the moisture of one soak touches few. */
const touchedBy = kept(({ first, second }: LinkedErrors["shared"][number]) =>
	[...first.keys()].filter((i) => first[i] !== 0 || second[i] !== 0),
);

function effectOf(
	input: LinkedErrors["shared"][number],
	byFirst: Float64Array,
	bySecond: Float64Array,
): Float64Array {
	const { first, second } = input;
	const effect = new Float64Array(first.length);
	for (const i of touchedBy(input))
		effect[i] = byFirst[i] * first[i] + bySecond[i] * second[i];
	return effect;
}
