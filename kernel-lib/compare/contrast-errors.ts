import { dot } from "../linear";
import type { WeightedUnit } from "./contrasts";
import { fewReadingsFactor } from "./few-readings";
import type { Observations } from "./observations";
import { type Spread, scatterOf, varianceOf } from "./spread";
import type { Unit } from "./units";

/** What the errors of one weighted sum of units are made of; variances in (mg/g)^2. */
export interface ContrastErrors {
	readonly parts: readonly WeightedUnit[];
	/** Weight of every observation: a unit's weight shared out among its flasks. */
	readonly flaskWeights: Float64Array;
	/** Effect of each shared input on the sum, standard uncertainty (with room for what is known from few readings only) and sign, mg/g; in the order of `errors.shared`. */
	readonly sharedEffects: Float64Array;
	/** Effect of each measured slope on the sum, one standard uncertainty, mg/g. */
	readonly slopeEffects: Float64Array;
	readonly scatterVariance: number;
	readonly sharedVariance: number;
	/** Errors of single flasks; counted only where no scatter holds them already. */
	readonly ownVariance: number;
	readonly variance: number;
	/** Of scatter and measured slopes, by Welch and Satterthwaite (JCGM 100:2008, G.4.1); Infinity where nothing was estimated from scatter. */
	readonly degreesOfFreedom: number;
}

/** Of every observation: a unit's weight shared out among its flasks. */
export function flaskWeightsOf(
	parts: readonly WeightedUnit[],
	flasks: number,
): Float64Array {
	const weights = new Float64Array(flasks);
	for (const { unit, weight } of parts)
		for (const i of unit.members) weights[i] += weight / unit.members.length;
	return weights;
}

function unitWeights(parts: readonly WeightedUnit[]): Map<Unit, number> {
	const weights = new Map<Unit, number>();
	for (const { unit, weight } of parts)
		weights.set(unit, (weights.get(unit) ?? 0) + weight);
	return weights;
}

/** Covariance that common units give two sums. */
function scatterForm(
	a: readonly WeightedUnit[],
	b: readonly WeightedUnit[],
	spread: Spread,
): number {
	const other = unitWeights(b);
	let sum = 0;
	for (const [unit, weight] of unitWeights(a))
		sum += weight * (other.get(unit) ?? 0) * varianceOf(spread, unit.treatment);
	return sum;
}

/** Squared weights of each treatment's units, added up. */
function squaresOf(parts: readonly WeightedUnit[]): Map<string, number> {
	const squares = new Map<string, number>();
	for (const [unit, weight] of unitWeights(parts))
		squares.set(
			unit.treatment,
			(squares.get(unit.treatment) ?? 0) + weight ** 2,
		);
	return squares;
}

/** Whether the scatter of units holds an error already: it is no common one, and of all units of the sum it touches one alone (the moisture of one soak). */
function heldByScatter(
	parts: readonly WeightedUnit[],
	{ input, effect }: Observations["errors"]["shared"][number],
	spread: Spread,
): boolean {
	if (input.scope === "shared" || spread.degreesOfFreedom === 0) return false;
	const touched = new Set<Unit>();
	for (const { unit } of parts)
		if (unit.members.some((i) => effect[i] !== 0)) touched.add(unit);
	return touched.size === 1;
}

/**
 * Scatter, with the squares of the weights that least squares gives the units, and beside it the inputs that several flasks lean on, each added up over the flasks with its sign
 * before it is squared, so that what moves treated and control alike cancels.
 */
export function contrastErrors(
	parts: readonly WeightedUnit[],
	observations: Observations,
	spread: Spread,
): ContrastErrors {
	const { list, errors } = observations;
	const flaskWeights = flaskWeightsOf(parts, list.length);
	const weighed = [...flaskWeights.keys()].filter((i) => flaskWeights[i] !== 0);
	const sharedEffects = Float64Array.from(errors.shared, (s) => {
		const effect = weighed.reduce(
			(sum, i) => sum + flaskWeights[i] * s.effect[i],
			0,
		);
		return effect === 0 || heldByScatter(parts, s, spread)
			? 0
			: effect * fewReadingsFactor(s.input.degreesOfFreedom);
	});
	const sharedVariance = dot(sharedEffects, sharedEffects);
	const slopeEffects = Float64Array.from(observations.slopes, (s) =>
		dot(flaskWeights, s.effect),
	);
	const scatter = scatterOf(spread, squaresOf(parts));
	const scatterVariance = scatter.variance;
	const ownVariance =
		spread.degreesOfFreedom > 0
			? 0
			: errors.aloneVariance.reduce(
					(s, v, i) => s + flaskWeights[i] ** 2 * v,
					0,
				);
	const variance =
		scatterVariance +
		sharedVariance +
		dot(slopeEffects, slopeEffects) +
		ownVariance;
	let { denominator } = scatter;
	observations.slopes.forEach((s, k) => {
		denominator += slopeEffects[k] ** 4 / s.degreesOfFreedom;
	});
	return {
		parts,
		flaskWeights,
		sharedEffects,
		slopeEffects,
		scatterVariance,
		sharedVariance,
		ownVariance,
		variance,
		degreesOfFreedom:
			denominator > 0 ? variance ** 2 / denominator : Number.POSITIVE_INFINITY,
	};
}

/** Covariance of two sums: common units, common shared inputs, common flasks' readings. */
export function contrastCovariance(
	a: ContrastErrors,
	b: ContrastErrors,
	observations: Observations,
	spread: Spread,
): number {
	let covariance =
		scatterForm(a.parts, b.parts, spread) +
		dot(a.sharedEffects, b.sharedEffects) +
		dot(a.slopeEffects, b.slopeEffects);
	if (spread.degreesOfFreedom === 0)
		observations.errors.aloneVariance.forEach((v, i) => {
			covariance += a.flaskWeights[i] * b.flaskWeights[i] * v;
		});
	return covariance;
}

/** Standard uncertainty (propagated, readings and shared inputs) of the part of a sum that stands on bounds, mg/g. */
export function boundUncertainty(
	parts: readonly WeightedUnit[],
	{ list, errors }: Observations,
): number {
	const weights = flaskWeightsOf(parts, list.length);
	list.forEach((o, i) => {
		if (o.side === "value") weights[i] = 0;
	});
	let variance = 0;
	errors.aloneVariance.forEach((v, i) => {
		variance += weights[i] ** 2 * v;
	});
	for (const s of errors.shared)
		variance +=
			(dot(weights, s.effect) * fewReadingsFactor(s.input.degreesOfFreedom)) **
			2;
	return Math.sqrt(variance);
}

/** The shared input that moves a difference most: what it is in words, and by how much (mg/g, one standard uncertainty). */
export function largestSharedInput(
	e: ContrastErrors,
	{ errors }: Observations,
): { readonly what: string; readonly effect: number } {
	let best = -1;
	e.sharedEffects.forEach((x, k) => {
		if (best < 0 || Math.abs(x) > Math.abs(e.sharedEffects[best])) best = k;
	});
	if (best < 0) return { what: "", effect: 0 };
	const { node, input } = errors.shared[best];
	const source = input.source;
	const place =
		source.is === "cell"
			? `${source.file}${source.sheet === "" ? "" : `, ${source.sheet}`}, row ${source.row}, ${source.column}`
			: source.source;
	return {
		what: node.name.meaning || node.name.symbol || place,
		effect: Math.abs(e.sharedEffects[best]),
	};
}
