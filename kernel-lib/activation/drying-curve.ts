import {
	defineModel,
	type Fit,
	fit as fitCurve,
	type Interval,
	profileIntervals,
} from "../fit";
import {
	knownIfFinite,
	type MaybeKnown,
	type NotKnown,
	notKnown,
} from "../quantity";
import { normalQuantile, studentTQuantile } from "../stats";
import { confidence } from "./confidence";

/** One weighing of a drying: hours in the oven, grams without the dish. */
export interface DryingPoint {
	readonly hours: number;
	readonly grams: number;
	readonly uncertainty: number;
}

/** A 95 % interval; the weighings may set no limit on one side. */
export interface DryingInterval {
	readonly low: MaybeKnown<number>;
	readonly high: MaybeKnown<number>;
}

/** The approach to constant mass, fitted. */
export interface DryingCurve {
	readonly is: "fitted";
	/** Of every interval here. */
	readonly confidence: number;
	/** g */
	readonly finalMass: number;
	readonly finalMassInterval: DryingInterval;
	/** Water still in the char at the last weighing, g. */
	readonly remaining: number;
	readonly remainingInterval: DryingInterval;
	/** 1/h */
	readonly rate: number;
	/** Hours beyond the last weighing until no more than the tolerance is left; 0 where that is so already. */
	readonly moreHours: number;
	readonly moreHoursInterval: DryingInterval;
	/** The mass by the fit at any hour, g. */
	readonly massAt: (hours: number) => number;
	readonly fit: Fit;
}

/** An interval in numbers; infinite where there is no limit. */
interface Span {
	readonly low: number;
	readonly high: number;
}

function intervalOf({ low, high }: Span): DryingInterval {
	return {
		low: knownIfFinite(low, "the weighings set no lower limit"),
		high: knownIfFinite(high, "the weighings set no upper limit"),
	};
}

/**
 * Approach to constant mass in the falling-rate period: m(t) = m_∞ + w_0 exp(-k t), the rate of drying in proportion to the water left (common practice). The first weighings of a very
 * wet char, where drying goes at a constant rate, do not follow it.
 */
const approach = defineModel({
	name: "approach to constant mass",
	formula: "m(t) = m_\\infty + w_0 e^{-k t}",
	parameters: [
		{ name: "final mass", unit: "g" },
		{ name: "water at first", unit: "g", lower: 0 },
		{ name: "ln rate", lower: -12, upper: 8 },
	],
	evaluate: (p, x, out) => {
		const k = Math.exp(p[2]);
		for (let i = 0; i < x.length; i++)
			out[i] = p[0] + p[1] * Math.exp(-k * x[i]);
	},
	derivatives: (p, x, out) => {
		const k = Math.exp(p[2]);
		const n = x.length;
		for (let i = 0; i < n; i++) {
			const e = Math.exp(-k * x[i]);
			out[i] = 1;
			out[n + i] = e;
			out[2 * n + i] = -p[1] * k * x[i] * e;
		}
	},
});

/** The curve has three unknowns, and one weighing more shows how good it is. */
const fewestWeighings = 4;

/** Why weighings cannot carry the curve; "" where they can. */
function refusal(points: readonly DryingPoint[]): string {
	if (points.length < fewestWeighings)
		return `${points.length} weighing${points.length === 1 ? "" : "s"}: the approach to constant mass has three unknowns, so at least four weighings are needed`;
	const rise = points.findIndex(
		(p, i) =>
			i > 0 &&
			p.grams - points[i - 1].grams >
				3 * Math.hypot(p.uncertainty, points[i - 1].uncertainty),
	);
	if (rise > 0)
		return `the mass rose between ${points[rise - 1].hours} h and ${points[rise].hours} h by more than weighing explains: char takes up moisture from the air while it cools, or a weighing is written down wrong`;
	const [first, last] = [points[0], points[points.length - 1]];
	return first.grams - last.grams <=
		2 * Math.hypot(first.uncertainty, last.uncertainty)
		? "the mass did not fall by more than weighing explains: there is no approach to fit (it may have been dry from the first weighing)"
		: "";
}

function spanOf(interval: Interval): Span {
	return {
		low:
			interval.low.kind === "open"
				? Number.NEGATIVE_INFINITY
				: interval.low.value,
		high:
			interval.high.kind === "open"
				? Number.POSITIVE_INFINITY
				: interval.high.value,
	};
}

const finalMass = "final mass";

/** What is left to lose, by the fit: its value and its 95 % band at any hour, and the hours from the last weighing until it falls to the tolerance. */
interface WaterLeft {
	readonly at: (hours: number, side: 0 | 1 | -1) => number;
	readonly moreHours: number;
	readonly moreHoursSpan: Span;
}

/** Water left is w_0 exp(-k t); its logarithm is nearly straight in the parameters, so the band is taken on that scale (delta method). */
function waterLeftOf(
	found: Fit,
	lastHours: number,
	tolerance: number,
	quantile: number,
): WaterLeft {
	const [, water, lnRate] = found.theta;
	const k = Math.exp(lnRate);
	const c = found.covariance;
	const at = (t: number, side: 0 | 1 | -1): number => {
		const best = Math.log(water) - k * t;
		if (side === 0) return Math.exp(best);
		if (c.is === "not known") return side > 0 ? Number.POSITIVE_INFINITY : 0;
		// Gradient of ln(water left) by (final mass, water at first, ln rate).
		const g = [0, 1 / water, -k * t];
		let variance = 0;
		for (let i = 0; i < 3; i++)
			for (let j = 0; j < 3; j++) variance += g[i] * g[j] * c.value[3 * i + j];
		return Math.exp(best + side * quantile * Math.sqrt(Math.max(0, variance)));
	};
	const when = Math.log(water / tolerance) / k;
	const after = (t: number): number => Math.max(0, t - lastHours);
	const step = Math.max(when, lastHours, 1) / 400;
	const crossing = (side: 1 | -1): number => {
		for (let n = 0; n <= 8000; n++)
			if (at(n * step, side) <= tolerance) return n * step;
		return Number.POSITIVE_INFINITY;
	};
	return {
		at,
		moreHours: after(when),
		moreHoursSpan: {
			low: Math.min(after(when), after(crossing(-1))),
			high: Math.max(after(when), after(crossing(1))),
		},
	};
}

/** The wider of two spans at each end: the scatter about the curve may be small by luck, and never smaller than weighing allows. */
function wider(a: Span, b: Span): Span {
	return { low: Math.min(a.low, b.low), high: Math.max(a.high, b.high) };
}

/** The curve fitted as the weighings scatter about it. */
function scatteredFit(points: readonly DryingPoint[]): MaybeKnown<Fit> {
	const [first, last] = [points[0], points[points.length - 1]];
	const found = fitCurve(
		approach,
		{ x: points.map((p) => p.hours), y: points.map((p) => p.grams) },
		{
			start: {
				"final mass": last.grams,
				"water at first": first.grams - last.grams,
				"ln rate": Math.log(3 / (last.hours - first.hours)),
			},
		},
	);
	if (!found.converged.holds)
		return notKnown(
			`the approach to constant mass finds no best fit (${found.converged.reason}): the weighings still fall in a straight line, or do not fall like a drying`,
		);
	return found.theta[1] <= 0 || found.atLimit.holds
		? notKnown(
				"the weighings do not fall like a drying that slows down: they set no final mass",
			)
		: { is: "value", value: found };
}

/** The same curve with the errors that the balance gives. */
function weighedFit(points: readonly DryingPoint[], scattered: Fit): Fit {
	return fitCurve(
		approach,
		{
			x: points.map((p) => p.hours),
			y: points.map((p) => p.grams),
			sigmaY: points.map((p) => Math.max(p.uncertainty, 1e-9)),
			sigmaIsAbsolute: true,
		},
		{
			start: {
				"final mass": scattered.theta[0],
				"water at first": scattered.theta[1],
				"ln rate": scattered.theta[2],
			},
		},
	);
}

function finalMassSpan(found: Fit): Span {
	const [{ interval }] = profileIntervals(found, { parameters: [finalMass] });
	return interval.is === "value"
		? spanOf(interval.value)
		: { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };
}

/** The approach to constant mass, fitted to weighings; every interval is the wider of what the scatter and what the balance give. `tolerance`: water that may be left, g. */
export function dryingCurveOf(
	points: readonly DryingPoint[],
	tolerance: number,
): DryingCurve | NotKnown {
	const because = refusal(points);
	if (because !== "") return notKnown(because);
	const found = scatteredFit(points);
	if (found.is === "not known") return found;
	const scattered = found.value;
	const weighed = weighedFit(points, scattered);
	const last = points[points.length - 1];
	const span = wider(finalMassSpan(scattered), finalMassSpan(weighed));
	const [mass, water, lnRate] = scattered.theta;
	const rate = Math.exp(lnRate);
	const massAt = (hours: number): number =>
		mass + water * Math.exp(-rate * hours);
	const left = [
		waterLeftOf(
			scattered,
			last.hours,
			tolerance,
			studentTQuantile((1 + confidence) / 2, scattered.degreesOfFreedom),
		),
		waterLeftOf(
			weighed,
			last.hours,
			tolerance,
			normalQuantile((1 + confidence) / 2),
		),
	];
	return {
		is: "fitted",
		confidence,
		finalMass: mass,
		finalMassInterval: intervalOf(span),
		remaining: left[0].at(last.hours, 0),
		remainingInterval: intervalOf({
			low: Math.min(...left.map((l) => l.at(last.hours, -1))),
			// Calling moist char dry is the costlier mistake: the upper end reaches as far as the final mass may lie below the last weighing.
			high: Math.max(
				...left.map((l) => l.at(last.hours, 1)),
				massAt(last.hours) - span.low,
			),
		}),
		rate,
		moreHours: left[0].moreHours,
		moreHoursInterval: intervalOf(
			wider(left[0].moreHoursSpan, left[1].moreHoursSpan),
		),
		massAt,
		fit: scattered,
	};
}
