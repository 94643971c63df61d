import { studentTQuantile } from "../stats";
import type { CurveEstimate } from "./curve-estimate";
import { type Joint, jointOf } from "./joint";
import type { Pair } from "./pairs";
import { type Spread, scatterOf } from "./spread";
import type { Interval } from "./word";

/** Uptake of the treated char less that of its control, both read off their isotherms at the stated residue; mg/g. */
export interface CurveDifference {
	readonly pair: Pair;
	readonly treated: CurveEstimate;
	readonly control: CurveEstimate;
	readonly estimate: number;
	readonly scatterVariance: number;
	/** What one standard uncertainty of each shared input makes of the difference; what moves both curves alike has cancelled. */
	readonly sharedEffects: ReadonlyMap<string, number>;
	readonly sharedVariance: number;
	readonly variance: number;
	/** Welch and Satterthwaite (JCGM 100:2008, G.4.1), of the scatter; few readings behind a shared error are in its size. */
	readonly degreesOfFreedom: number;
}

export interface CurveDifferences {
	readonly family: readonly CurveDifference[];
	readonly joint: Joint;
	/** Simultaneous, in the order of the family. */
	readonly intervals: readonly Interval[];
	/** Limits by a one-sided test each. */
	readonly oneSided: readonly Interval[];
}

/** Square of the scatter of a difference over its degrees of freedom. */
function scatterDenominator(
	treated: CurveEstimate,
	control: CurveEstimate,
	soakSpread: Spread,
): number {
	const both = [treated, control];
	return both.every((e) => e.spread === "between soaks")
		? scatterOf(
				soakSpread,
				new Map(both.map((e) => [e.treatment, 1 / e.soaks])),
			).denominator
		: both.reduce(
				(sum, e) => sum + e.scatterVariance ** 2 / e.degreesOfFreedom,
				0,
			);
}

/** With more degrees of freedom Student's t is the normal to seven digits; what rounding leaves of a scatter has far more. */
const asGoodAsKnown = 1e8;

const orInfinite = (degreesOfFreedom: number): number =>
	degreesOfFreedom < asGoodAsKnown
		? degreesOfFreedom
		: Number.POSITIVE_INFINITY;

/** @param soakSpread of soaks with curves of their own */
export function curveDifference(
	pair: Pair,
	treated: CurveEstimate,
	control: CurveEstimate,
	soakSpread: Spread,
): CurveDifference {
	const sharedEffects = new Map<string, number>();
	let sharedVariance = 0;
	for (const key of new Set([
		...treated.shared.keys(),
		...control.shared.keys(),
	])) {
		const effect =
			(treated.shared.get(key) ?? 0) - (control.shared.get(key) ?? 0);
		sharedEffects.set(key, effect);
		sharedVariance += effect ** 2;
	}
	const below = scatterDenominator(treated, control, soakSpread);
	const scatterVariance = treated.scatterVariance + control.scatterVariance;
	const variance = scatterVariance + sharedVariance;
	return {
		pair,
		treated,
		control,
		estimate: treated.uptake - control.uptake,
		scatterVariance,
		sharedEffects,
		sharedVariance,
		variance,
		degreesOfFreedom: orInfinite(variance ** 2 / below),
	};
}

/** Covariance of two differences: curves that stand in both, and inputs that both lean on. */
export function differenceCovariance(
	a: CurveDifference,
	b: CurveDifference,
): number {
	let covariance = 0;
	for (const [x, sign] of [
		[a.treated, 1],
		[a.control, -1],
	] as const) {
		if (x === b.treated) covariance += sign * x.scatterVariance;
		if (x === b.control) covariance -= sign * x.scatterVariance;
	}
	for (const [key, effect] of a.sharedEffects)
		covariance += effect * (b.sharedEffects.get(key) ?? 0);
	return covariance;
}

const around = ({ estimate }: CurveDifference, half: number): Interval => ({
	low: estimate - half,
	high: estimate + half,
});

/** Intervals that hold for all differences together. */
export function curveDifferences(
	family: readonly CurveDifference[],
	confidence: number,
): CurveDifferences {
	const joint = jointOf(
		family.map((a) => family.map((b) => differenceCovariance(a, b))),
		family.map((d) => d.degreesOfFreedom),
		confidence,
	);
	return {
		family,
		joint,
		intervals: family.map((d, i) =>
			around(d, joint.criticalValues[i] * Math.sqrt(d.variance)),
		),
		oneSided: family.map((d) =>
			around(
				d,
				studentTQuantile(confidence, d.degreesOfFreedom) *
					Math.sqrt(d.variance),
			),
		),
	};
}
