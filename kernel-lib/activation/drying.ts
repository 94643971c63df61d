import type { Firing } from "../bench";
import {
	defineModel,
	type Fit,
	fit as fitCurve,
	type Interval,
	profileIntervals,
} from "../fit";
import { type Quantity, roundedPair } from "../quantity";
import { normalQuantile, studentTQuantile } from "../stats";

/** One weighing of a drying: hours in the oven, grams without the dish. */
export interface DryingPoint {
	readonly hours: number;
	readonly grams: number;
	readonly uncertainty: number;
}

export interface Span {
	readonly low: number;
	/** Infinity where the weighings set no upper limit. */
	readonly high: number;
}

/** The rule of the bench: two weighings in a row within so many milligrams. */
export interface BenchRule {
	readonly holds: boolean;
	/** Last weighing but one minus last weighing, g. */
	readonly fall: number;
	readonly within: number;
	readonly sentence: string;
}

/** The approach to constant mass, fitted. */
export interface DryingCurve {
	readonly is: "fitted";
	/** g */
	readonly finalMass: number;
	readonly finalMassInterval: Span;
	/** Water still in the char at the last weighing, g. */
	readonly remaining: number;
	readonly remainingInterval: Span;
	/** 1/h */
	readonly rate: number;
	/** Hours beyond the last weighing until no more than the tolerance is left; 0 where that is so already. */
	readonly moreHours: number;
	readonly moreHoursInterval: Span;
	/** The mass by the fit at any hour, g. */
	readonly massAt: (hours: number) => number;
	readonly fit: Fit;
}

export interface Drying {
	readonly firing: Firing;
	readonly points: readonly DryingPoint[];
	/** What may be left, g. */
	readonly tolerance: number;
	readonly curve:
		| DryingCurve
		| { readonly is: "refused"; readonly because: string };
	readonly rule: BenchRule;
	/** From the fitted curve where there is one; else from the bench rule alone. */
	readonly verdict: "dry" | "not dry" | "cannot tell";
	readonly sentence: string;
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

function pointsOf(firing: Firing): DryingPoint[] {
	return firing.drying.map((w) => {
		const mass = w.mass.to("g");
		return {
			hours: w.time.in("h"),
			grams: mass.value,
			uncertainty: mass.standardUncertainty,
		};
	});
}

function ruleOf(points: readonly DryingPoint[], within: number): BenchRule {
	const mg = (g: number): string => `${Number((1000 * g).toPrecision(3))} mg`;
	if (points.length < 2)
		return {
			holds: false,
			fall: 0,
			within,
			sentence:
				"Bench rule (two weighings in a row): fewer than two weighings.",
		};
	const [before, last] = points.slice(-2);
	const fall = before.grams - last.grams;
	const hours = Number((last.hours - before.hours).toPrecision(3));
	const holds = Math.abs(fall) <= within;
	return {
		holds,
		fall,
		within,
		sentence: `Bench rule (two weighings in a row within ${mg(within)}): ${holds ? "holds" : "does not hold"}; ${fall < 0 ? "a gain" : "a loss"} of ${mg(Math.abs(fall))} in the last ${hours} h.${holds ? " The rule cannot see a slow drying: the shorter the time between, the easier it holds." : ""}`,
	};
}

function refusal(points: readonly DryingPoint[]): string {
	if (points.length < 4)
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

function curveOf(
	points: readonly DryingPoint[],
	tolerance: number,
): Drying["curve"] {
	const because = refusal(points);
	if (because !== "") return { is: "refused", because };
	const x = points.map((p) => p.hours);
	const y = points.map((p) => p.grams);
	const [first, last] = [points[0], points[points.length - 1]];
	const start = {
		"final mass": last.grams,
		"water at first": first.grams - last.grams,
		"ln rate": Math.log(3 / (last.hours - first.hours)),
	};
	const scattered = fitCurve(approach, { x, y }, { start });
	if (!scattered.converged.holds)
		return {
			is: "refused",
			because: `the approach to constant mass finds no best fit (${scattered.converged.reason}): the weighings still fall in a straight line, or do not fall like a drying`,
		};
	if (scattered.theta[1] <= 0 || scattered.atLimit.holds)
		return {
			is: "refused",
			because:
				"the weighings do not fall like a drying that slows down: they set no final mass",
		};
	const weighed = fitCurve(
		approach,
		{
			x,
			y,
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
	const spans = [scattered, weighed].map((f): Span => {
		const [{ interval }] = profileIntervals(f, { parameters: [finalMass] });
		return interval.is === "value"
			? spanOf(interval.value)
			: { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };
	});
	const span = wider(spans[0], spans[1]);
	const massAt = (hours: number): number =>
		scattered.theta[0] +
		scattered.theta[1] * Math.exp(-Math.exp(scattered.theta[2]) * hours);
	const left = [
		waterLeftOf(
			scattered,
			last.hours,
			tolerance,
			studentTQuantile(0.975, scattered.degreesOfFreedom),
		),
		waterLeftOf(weighed, last.hours, tolerance, normalQuantile(0.975)),
	];
	return {
		is: "fitted",
		finalMass: scattered.theta[0],
		finalMassInterval: span,
		remaining: left[0].at(last.hours, 0),
		remainingInterval: {
			low: Math.min(...left.map((l) => l.at(last.hours, -1))),
			// Calling moist char dry is the costlier mistake: the upper end reaches as far as the final mass may lie below the last weighing.
			high: Math.max(
				...left.map((l) => l.at(last.hours, 1)),
				massAt(last.hours) - span.low,
			),
		},
		rate: Math.exp(scattered.theta[2]),
		moreHours: left[0].moreHours,
		moreHoursInterval: wider(left[0].moreHoursSpan, left[1].moreHoursSpan),
		massAt,
		fit: scattered,
	};
}

function hoursText(hours: number): string {
	return Number.isFinite(hours) ? `${Number(hours.toPrecision(2))} h` : "";
}

function sentenceOf(
	firing: Firing,
	drying: Pick<Drying, "curve" | "rule" | "tolerance" | "verdict" | "points">,
): string {
	const { curve, rule, tolerance, verdict, points } = drying;
	const head = `Drying of ${firing.name}: `;
	if (curve.is === "refused")
		return `${head}${verdict}; ${curve.because}. ${rule.sentence}`;
	const last = points[points.length - 1];
	const half = (curve.finalMassInterval.high - curve.finalMassInterval.low) / 2;
	const open = !Number.isFinite(half);
	const mass = open
		? `the weighings set no firm final mass (best guess ${roundedPair(curve.finalMass, last.uncertainty || 0.001)[0]} g)`
		: `predicted final mass ${roundedPair(curve.finalMass, half)[0]} g (95 %: ${roundedPair(curve.finalMassInterval.low, half)[0]} to ${roundedPair(curve.finalMassInterval.high, half)[0]} g)`;
	const allowed = `${Number((1000 * tolerance).toPrecision(3))} mg`;
	const water =
		verdict === "dry"
			? `no more than the ${allowed} allowed is left in it`
			: verdict === "not dry"
				? `more than the ${allowed} allowed is still in it`
				: `whether more than the ${allowed} allowed is left in it cannot be told`;
	const best = hoursText(curve.moreHours);
	const most = hoursText(curve.moreHoursInterval.high);
	const hours =
		verdict === "dry"
			? ""
			: ` Best guess of the time still needed: ${best}${most === "" ? " (the weighings set no upper limit)" : most === best ? "" : ` (up to ${most})`}.`;
	return `${head}${verdict}; ${mass}, ${water}.${hours} ${rule.sentence}`;
}

/**
 * Is it dry yet? The approach to constant mass fitted to the weighings, the final mass with its 95 % interval (profile; the wider of what the scatter and what the balance give), the hours still
 * needed, and beside them the rule of the bench.
 *
 * @param options.tolerance water that may be left; 0.1 % of the last weighing unless told otherwise (common practice, no source)
 * @param options.agreement two weighings in a row must agree within this; as much as the tolerance unless told otherwise
 */
export function drying(
	firing: Firing,
	options: {
		readonly tolerance?: Quantity<"mass">;
		readonly agreement?: Quantity<"mass">;
	} = {},
): Drying {
	const points = pointsOf(firing);
	const last = points.length === 0 ? 0 : points[points.length - 1].grams;
	const tolerance = options.tolerance?.in("g") ?? last / 1000;
	const rule = ruleOf(points, options.agreement?.in("g") ?? tolerance);
	const curve =
		points.length === 0
			? ({
					is: "refused",
					because: "no weighing of a drying is recorded",
				} as const)
			: curveOf(points, tolerance);
	const verdict =
		curve.is === "refused"
			? points.length >= 2 && !rule.holds && rule.fall > 0
				? "not dry"
				: "cannot tell"
			: curve.remainingInterval.high <= tolerance
				? "dry"
				: curve.remainingInterval.low > tolerance
					? "not dry"
					: "cannot tell";
	const result = { firing, points, tolerance, curve, rule, verdict } as const;
	return { ...result, sentence: sentenceOf(firing, result) };
}
