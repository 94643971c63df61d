import {
	combinedDegreesOfFreedom,
	commonConfidence,
	type IsothermFit,
	twoSided,
} from "../isotherms";
import { quadraticForm } from "../linear";
import type { MaybeKnown } from "../quantity";
import { quoted } from "../quantity";

/** One source of the uncertainty of a number that follows from fits. */
export interface Contribution {
	readonly what: string;
	/** Standard uncertainty of the logarithm: for small ones the relative standard uncertainty. */
	readonly relative: number;
	/** Share of the variance, 0 to 1. */
	readonly share: number;
}

/** A positive number that follows from fitted isotherms, with an interval that is symmetric on the logarithm and so asymmetric here. */
export interface FromFits {
	readonly value: number;
	readonly unit: string;
	/** Standard uncertainty of the logarithm. */
	readonly relativeError: MaybeKnown<number>;
	readonly low: MaybeKnown<number>;
	readonly high: MaybeKnown<number>;
	readonly confidence: number;
	readonly degreesOfFreedom: number;
	/** Largest first. */
	readonly contributions: readonly Contribution[];
}

/** An error from outside the fits, such as that of the start concentration. An input with the key of a shared one is that input. */
export interface OutsideError {
	readonly key: string;
	readonly what: string;
	readonly degreesOfFreedom: number;
	/** What one standard uncertainty of it does to the logarithm of the number. */
	readonly effect: number;
}

/** Fourth-order central differences (Abramowitz and Stegun, 25.3.6), and the relative step at which truncation and rounding are both small. */
const differences: readonly (readonly [number, number])[] = [
	[-2, 1],
	[-1, -8],
	[1, 8],
	[2, -1],
];
const relativeStep = 3e-4;

/** An interval that reaches farther than tenfold up and down is none: first order does not hold there, and nobody can work with it. Our decision. */
const widest = Math.log(10);
export const notSettled =
	"the interval would reach from less than a tenth to more than tenfold: these flasks do not settle it";

/**
 * Carries the errors of fits on to a positive number computed from their parameters: scatter of each fit, and every shared input once, whichever fits lean on it. First order, on the logarithm.
 *
 * @param compute the number, from the parameters of each fit in turn
 */
export function fromFits(
	fits: readonly IsothermFit[],
	unit: string,
	compute: (thetas: readonly Float64Array[]) => number,
	outside: readonly OutsideError[] = [],
): FromFits {
	const thetas = fits.map((f) => f.theta);
	const value = compute(thetas);
	const confidence = commonConfidence(fits, "a number from several fits");
	const frame = { value, unit, confidence };
	const reason = whyUnknown(fits, value);
	if (reason !== "") return withoutErrors(frame, reason);
	const gradients = fits.map((f, k) => logGradient(f, thetas, k, compute));
	if (gradients.some((g) => !g.every(Number.isFinite)))
		return withoutErrors(
			frame,
			"so close to where the curve ends that its errors cannot be carried on",
		);
	const effects = [
		...fits.map((f, k) => ({
			what:
				fits.length === 1
					? "scatter of the flasks about the curve"
					: `scatter of the flasks about the curve, ${quoted(f.points.name)}`,
			effect: Math.sqrt(scatterVariance(f, gradients[k])),
			degreesOfFreedom: f.degreesOfFreedom,
		})),
		...sharedEffects(fits, gradients, outside),
	];
	const variance = effects.reduce((sum, e) => sum + e.effect ** 2, 0);
	const degreesOfFreedom = combinedDegreesOfFreedom(
		0,
		Number.POSITIVE_INFINITY,
		effects,
	);
	const half = twoSided(confidence, degreesOfFreedom) * Math.sqrt(variance);
	if (!(half <= widest)) return withoutErrors(frame, notSettled);
	return {
		...frame,
		relativeError: { is: "value", value: Math.sqrt(variance) },
		low: { is: "value", value: value * Math.exp(-half) },
		high: { is: "value", value: value * Math.exp(half) },
		degreesOfFreedom,
		contributions: effects
			.filter((e) => e.effect !== 0)
			.map((e) => ({
				what: e.what,
				relative: Math.abs(e.effect),
				share: e.effect ** 2 / variance,
			}))
			.sort((a, b) => b.share - a.share),
	};
}

function whyUnknown(fits: readonly IsothermFit[], value: number): string {
	if (!(value > 0 && Number.isFinite(value)))
		return "the number is not above zero";
	for (const f of fits)
		if (f.scatterCovariance.is === "not known")
			return f.scatterCovariance.because;
	return "";
}

function withoutErrors(
	frame: Pick<FromFits, "value" | "unit" | "confidence">,
	reason: string,
): FromFits {
	const unknown = { is: "not known" as const, because: reason };
	return {
		...frame,
		relativeError: unknown,
		low: unknown,
		high: unknown,
		degreesOfFreedom: 0,
		contributions: [],
	};
}

/** d ln(number)/d theta of one of the fits, 0 for parameters that do not vary. */
function logGradient(
	fit: IsothermFit,
	thetas: readonly Float64Array[],
	k: number,
	compute: (thetas: readonly Float64Array[]) => number,
): Float64Array {
	return Float64Array.from(fit.theta, (centre, j) => {
		if (!varies(fit, j)) return 0;
		const h = relativeStep * (Math.abs(centre) || 1);
		let sum = 0;
		for (const [shift, weight] of differences) {
			const moved = thetas[k].slice();
			moved[j] = centre + shift * h;
			sum +=
				weight * Math.log(compute(thetas.map((t, i) => (i === k ? moved : t))));
		}
		return sum / (12 * h);
	});
}

function varies(fit: IsothermFit, j: number): boolean {
	const { scatterCovariance: c, theta } = fit;
	return (
		(c.is === "value" && c.value[j * theta.length + j] > 0) ||
		fit.sharedShifts.some((s) => s.effect[j] !== 0)
	);
}

function scatterVariance(fit: IsothermFit, g: Float64Array): number {
	return fit.scatterCovariance.is === "not known"
		? 0
		: quadraticForm(fit.scatterCovariance.value, g);
}

/** Effects of the shared inputs of all fits and of outside errors, each input once. */
function sharedEffects(
	fits: readonly IsothermFit[],
	gradients: readonly Float64Array[],
	outside: readonly OutsideError[],
): { what: string; effect: number; degreesOfFreedom: number }[] {
	const effects = new Map<
		string,
		{ what: string; effect: number; degreesOfFreedom: number }
	>();
	const add = (e: OutsideError): void => {
		const before = effects.get(e.key)?.effect ?? 0;
		effects.set(e.key, {
			what: e.what,
			effect: before + e.effect,
			degreesOfFreedom: e.degreesOfFreedom,
		});
	};
	fits.forEach((f, k) => {
		for (const s of f.sharedShifts)
			add({
				...s,
				effect: gradients[k].reduce((sum, g, j) => sum + g * s.effect[j], 0),
			});
	});
	for (const e of outside) add(e);
	return [...effects.values()];
}
