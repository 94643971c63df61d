import type { Fit, FitOptions, Interval } from "../fit";

import { type MaybeKnown, problem, throwProblems } from "../quantity";
import { normalQuantile, studentTQuantile } from "../stats";
import type { Isotherm } from "./catalogue/index";
import type { IsothermPoint, IsothermPoints } from "./isotherm-points";
import { opinionOn } from "./opinion";
import { profileWithShared } from "./profile-with-shared";
import { fitResidues, type GivenWeights, type RawFit } from "./residue-fit";
import { type SharedShift, shiftsOf } from "./shared-errors";
import { fitUptakes } from "./uptake-fit";

/**
 * What is fitted. "balance lines": the residues themselves, each where the isotherm meets the flask's mass balance; exact, and the default wherever the flasks are known. "uptake on concentration": the ordinary fit,
 * which takes the concentrations for exact although they come from the same titres as the uptakes.
 */
export type FitMethod = "balance lines" | "uptake on concentration";

export interface IsothermFitOptions
	extends Pick<FitOptions, "start" | "fixed" | "lower" | "upper" | "search"> {
	readonly method?: FitMethod;
	/**
	 * false, if not given: only the ratios of the reading errors are believed, and their size is taken from the scatter about the curve. true: they are taken as they are, and nothing else
	 * (flask, char, hand) is believed to scatter.
	 */
	readonly sigmaIsAbsolute?: boolean;
	/** Level of all intervals; 0.95 if not given. */
	readonly confidence?: number;
}

/** One parameter with what its uncertainty is made of. */
export interface IsothermEstimate {
	readonly name: string;
	readonly unit: string;
	readonly meaning: string;
	readonly value: number;
	readonly role: "free" | "fixed";
	readonly limit: "none" | "at its lower limit" | "at its upper limit";
	/** From the scatter about the curve beside the shared errors (or the reading errors, where these are absolute). */
	readonly scatter: MaybeKnown<number>;
	/** From errors that all flasks share: titrants, calibrations, blanks. */
	readonly shared: MaybeKnown<number>;
	/** Both together. */
	readonly standardError: MaybeKnown<number>;
	/** Symmetric, from the standard error. */
	readonly interval: MaybeKnown<Interval>;
	/** By profile likelihood, shared errors included; asymmetric where the curve is, open where the data set no end. The one to quote. */
	readonly profile: MaybeKnown<Interval>;
}

/** An isotherm fitted to the points of one treatment. */
export interface IsothermFit {
	readonly kind: "isotherm fit";
	readonly isotherm: Isotherm;
	readonly points: IsothermPoints;
	readonly method: FitMethod;
	readonly confidence: number;
	/** As the fit engine gave it: flags, criteria, residuals of what was fitted. Its standard errors know nothing of shared errors; those of `parameters` do. */
	readonly fit: Fit;
	readonly theta: Float64Array;
	readonly parameters: readonly IsothermEstimate[];
	/** Points that entered, and what the curve gives each in the unit of what was fitted: residue (mg/L) or uptake (mg/g). */
	readonly used: readonly IsothermPoint[];
	readonly expected: Float64Array;
	/** Standard deviation of each about the curve in that unit, what shared errors do to single points included. */
	readonly deviations: Float64Array;
	/** Covariance of the parameters from the scatter, row by row. */
	readonly scatterCovariance: MaybeKnown<Float64Array>;
	readonly sharedShifts: readonly SharedShift[];
	/** Of the scatter, seldom whole, for shared errors hide some of it; Infinity where the errors were taken as absolute. */
	readonly degreesOfFreedom: number;
	/** Scatter beside the shared errors, as a multiple of what the reading errors explain; for the ordinary fit all scatter, mg/g. */
	readonly scale: number;
	readonly scaleFrom: "scatter" | "reading errors";
	/** Standard deviations before scaling, mg/L (1 for the ordinary fit): what makes the criteria of two fits comparable. */
	readonly weights: Float64Array;
	/** Akaike's criterion with the correction for few points; bounds are in it. Comparable between fits of the same points with the same weights. */
	readonly aicc: MaybeKnown<number>;
	/** Smallest and largest residue that was read, mg/L. */
	readonly range: { readonly low: number; readonly high: number };
	/** What a reader should know before using the numbers, in plain words; the weightiest first. */
	readonly opinion: readonly string[];
}

/**
 * Fits one isotherm to the points of one treatment.
 *
 * @throws ProblemError where the points cannot be fitted at all (too few, none read, no balance lines for "balance lines"); data that merely cannot support the isotherm do not throw: flags and
 * opinion say so
 */
export function fitIsotherm(
	isotherm: Isotherm,
	points: IsothermPoints,
	options: IsothermFitOptions = {},
): IsothermFit {
	return finish(isotherm, points, options, { is: "none" });
}

/** The same with weights from outside (standard deviations of the residues, mg/L, one for each point), so that several isotherms are judged alike. */
export function fitWithWeights(
	isotherm: Isotherm,
	points: IsothermPoints,
	options: IsothermFitOptions,
	deviations: Float64Array,
): IsothermFit {
	return finish(isotherm, points, options, { is: "given", deviations });
}

/** What is fitted where the options do not say. */
export function methodFor(
	points: IsothermPoints,
	options: IsothermFitOptions,
): FitMethod {
	return (
		options.method ??
		(points.points.every((p) => p.balance.is === "known")
			? "balance lines"
			: "uptake on concentration")
	);
}

function finish(
	isotherm: Isotherm,
	points: IsothermPoints,
	options: IsothermFitOptions,
	weights: GivenWeights,
): IsothermFit {
	const { method: _, sigmaIsAbsolute = false, ...rest } = options;
	const { confidence = 0.95, ...engine } = rest;
	const method = methodFor(points, options);
	checkPoints(points, method);
	const raw =
		method === "balance lines"
			? fitResidues(isotherm, [points], {
					engine,
					confidence,
					sigmaIsAbsolute,
					weights,
					shared: [],
				})
			: fitUptakes(isotherm, points, { engine, confidence });
	return fitsOf(isotherm, [points], method, confidence, raw)[0];
}

/** What several treatments have in common. */
export interface SharedParameterOptions extends IsothermFitOptions {
	/** Parameters that are the same for all treatments, such as the affinity; the others are each treatment's own. */
	readonly shared: readonly string[];
}

/**
 * Fits one isotherm to several treatments at once, with some parameters in common: fewer parameters for the same flasks. Whether they are in common is a decision; the fit does not prove it.
 *
 * @returns one fit for each treatment, in order, with errors from all of them together
 * @throws ProblemError as `fitIsotherm`, and for a shared parameter that the isotherm does not have
 */
export function fitIsothermTogether(
	isotherm: Isotherm,
	treatments: readonly IsothermPoints[],
	options: SharedParameterOptions,
): IsothermFit[] {
	const { method: _, sigmaIsAbsolute = false, ...rest } = options;
	const { confidence = 0.95, shared, ...engine } = rest;
	for (const points of treatments) checkPoints(points, "balance lines");
	const raw = fitResidues(isotherm, treatments, {
		engine,
		confidence,
		sigmaIsAbsolute,
		weights: { is: "none" },
		shared,
	});
	return fitsOf(isotherm, treatments, "balance lines", confidence, raw);
}

function fitsOf(
	isotherm: Isotherm,
	treatments: readonly IsothermPoints[],
	method: FitMethod,
	confidence: number,
	raw: RawFit,
): IsothermFit[] {
	const shifts = shiftsOf(raw.combined, raw.effects, raw.rows, raw.variance);
	return treatments.map((points, k) => {
		const mine = raw.used.flatMap((p, i) =>
			points.points.includes(p) ? [i] : [],
		);
		const pick = (all: Float64Array): Float64Array =>
			Float64Array.from(mine, (i) => all[i]);
		const used = mine.map((i) => raw.used[i]);
		const read = used
			.filter((p) => p.is === "reading")
			.map((p) => p.concentration);
		const own = shifts.map((s) => ({
			...s,
			effect: Float64Array.from(raw.index[k], (c) => s.effect[c]),
		}));
		const fit = raw.fits[k];
		const unfinished = {
			kind: "isotherm fit" as const,
			isotherm,
			points,
			method,
			confidence,
			fit,
			theta: fit.theta,
			parameters: fit.parameters.map((_, j) =>
				estimate(raw, k, j, isotherm, own, confidence),
			),
			used,
			expected: pick(raw.expected),
			deviations: pick(raw.deviations),
			scatterCovariance: scatterCovarianceOf(fit, raw),
			sharedShifts: own,
			degreesOfFreedom: raw.degreesOfFreedom,
			scale: raw.scale,
			scaleFrom: raw.scaleFrom,
			weights: pick(raw.weights),
			aicc: aiccOf(raw),
			range: { low: Math.min(...read), high: Math.max(...read) },
		};
		const opinion = lazily(() => opinionOn(unfinished));
		return {
			...unfinished,
			get opinion() {
				return opinion();
			},
		};
	});
}

function checkPoints(points: IsothermPoints, method: FitMethod): void {
	const where = { column: points.name };
	const without = points.points.filter((p) => p.balance.is === "unknown");
	throwProblems([
		...(points.points.some((p) => p.is === "reading")
			? []
			: [
					problem(
						"no-residue-read",
						where,
						"no flask with a residue that could be read",
						"flasks with a measurable residue, at different doses",
						"Dose more iodine, or weigh less char.",
					),
				]),
		...(method === "balance lines" && without.length > 0
			? [
					problem(
						"no-balance-line",
						where,
						`${without.length} points without a mass balance`,
						"points made from flasks",
						'Plain points can only be fitted with method: "uptake on concentration".',
					),
				]
			: []),
	]);
}

/**
 * n ln(RSS/n) + 2K + 2K(K+1)/(n-K-1) over the n points that were read, K counting the scale, plus minus twice the log of the probability of each bound; with absolute errors RSS in place of
 * n ln(RSS/n), and K without the scale. Without bounds it is the engine's.
 */
function aiccOf(raw: RawFit): MaybeKnown<number> {
	const { criteria, freeParameters, fitted, residuals } = raw.combined;
	const read = raw.used.map((p) => p.is === "reading");
	if (!read.includes(false)) return criteria.aicc;
	const n = read.filter(Boolean).length;
	let squares = 0;
	let bounds = 0;
	read.forEach((is, i) => {
		if (is) squares += (residuals[i] / raw.weights[i]) ** 2;
		else bounds += fitted[i] ** 2;
	});
	const estimated = raw.scaleFrom === "scatter";
	const k = (estimated ? 1 : 0) + freeParameters;
	if (n <= k + 1 || (estimated && !(squares > 0)))
		return {
			is: "not known",
			because: `AICc needs more than ${k + 1} points that were read for ${k} estimated quantities, and some scatter; there are ${n}`,
		};
	const deviance = estimated ? n * Math.log(squares / n) : squares;
	return {
		is: "value",
		value: deviance + bounds + 2 * k + (2 * k * (k + 1)) / (n - k - 1),
	};
}

/** The engine's covariance with the scatter beside the shared errors in place of all scatter. */
function scatterCovarianceOf(
	{ covariance }: Fit,
	{ besideEngine }: RawFit,
): MaybeKnown<Float64Array> {
	return covariance.is === "value"
		? {
				is: "value",
				value: covariance.value.map((c) => c * besideEngine ** 2),
			}
		: covariance;
}

/** Degrees of freedom of a sum of scatter and shared errors (JCGM 100:2008, G.4.1). */
export function combinedDegreesOfFreedom(
	scatterVariance: number,
	degreesOfFreedom: number,
	shared: readonly {
		readonly effect: number;
		readonly degreesOfFreedom: number;
	}[],
): number {
	const total =
		scatterVariance + shared.reduce((sum, s) => sum + s.effect ** 2, 0);
	const below =
		scatterVariance ** 2 / degreesOfFreedom +
		shared.reduce((sum, s) => sum + s.effect ** 4 / s.degreesOfFreedom, 0);
	return below > 0 ? total ** 2 / below : Number.POSITIVE_INFINITY;
}

/** Two-sided quantile: Student's t, the normal for infinite degrees of freedom. */
export function twoSided(confidence: number, degreesOfFreedom: number): number {
	const p = 0.5 + confidence / 2;
	return Number.isFinite(degreesOfFreedom)
		? studentTQuantile(p, degreesOfFreedom)
		: normalQuantile(p);
}

/** Parameter j of treatment k. */
function estimate(
	raw: RawFit,
	k: number,
	j: number,
	isotherm: Isotherm,
	shifts: readonly SharedShift[],
	confidence: number,
): IsothermEstimate {
	const p = raw.fits[k].parameters[j];
	const { name, unit, value, role, limit } = p;
	const frame = {
		name,
		unit,
		meaning: isotherm.parameters[j].meaning,
		value,
		role,
		limit,
	};
	const { standardError } = p;
	const held: MaybeKnown<Interval> = {
		is: "not known",
		because: "held at this value",
	};
	if (standardError.is === "not known") {
		const profile = lazily((): MaybeKnown<Interval> => {
			if (role === "fixed") return held;
			if (raw.degreesOfFreedom === 0) return standardError;
			return profileWithShared(raw, raw.index[k][j], {
				effects: raw.effects.map(() => 0),
				scatter: 1,
				quantile: twoSided(confidence, raw.degreesOfFreedom),
				confidence,
			});
		});
		return {
			...frame,
			scatter: standardError,
			shared: standardError,
			standardError,
			interval: standardError,
			get profile() {
				return profile();
			},
		};
	}
	const scatter = standardError.value * raw.besideEngine;
	const effects = shifts.map((s) => s.effect[j]);
	const shared = Math.hypot(...effects, 0);
	const total = Math.hypot(scatter, shared);
	const quantile = twoSided(
		confidence,
		combinedDegreesOfFreedom(
			scatter ** 2,
			raw.degreesOfFreedom,
			shifts.map((s) => ({
				effect: s.effect[j],
				degreesOfFreedom: s.degreesOfFreedom,
			})),
		),
	);
	const profile = lazily(
		(): MaybeKnown<Interval> =>
			role === "fixed"
				? held
				: profileWithShared(raw, raw.index[k][j], {
						effects,
						scatter,
						quantile,
						confidence,
					}),
	);
	return {
		...frame,
		scatter: { is: "value", value: scatter },
		shared: { is: "value", value: shared },
		standardError: { is: "value", value: total },
		interval: {
			is: "value",
			value: symmetric(value, quantile * total, confidence),
		},
		get profile() {
			return profile();
		},
	};
}

/** Made when it is first asked for, and once: following the ends of an interval takes longer than the fit, and whoever only compares curves does not look at them. */
function lazily<T>(make: () => T): () => T {
	let made: { readonly value: T } | undefined;
	return () => {
		made ??= { value: make() };
		return made.value;
	};
}

function symmetric(value: number, half: number, confidence: number): Interval {
	return {
		low: { kind: "closed", value: value - half },
		high: { kind: "closed", value: value + half },
		confidence,
		method:
			"standard error of scatter and shared errors together times Student's t",
	};
}
