import type { Fit, FitOptions } from "../fit";
import {
	listOption,
	type MaybeKnown,
	type OptionRule,
	objectOption,
	problem,
	quoted,
	requireOptions,
	textOption,
	throwProblems,
	wordOption,
	yesNoOption,
} from "../quantity";
import { ammoniaInAny, safeToDose } from "../uptake";
import type { Isotherm } from "./catalogue/index";
import { requireIsotherm, requirePoints } from "./doors";
import { estimate } from "./estimate";
import type { FitMethod, IsothermFit } from "./fit-result";
import { confidenceOption, usualConfidence } from "./intervals";
import { lazily } from "./lazily";
import { opinionOn } from "./opinion";
import type { IsothermPoints } from "./points";
import { probeOf } from "./probe-words";
import type { GivenWeights, RawFit } from "./raw-fit";
import { fitResidues } from "./residue-fit";
import { shiftsOf } from "./shared-errors";
import { fitUptakes } from "./uptake-fit";

export interface IsothermFitOptions
	extends Pick<FitOptions, "start" | "fixed" | "lower" | "upper" | "search"> {
	readonly method?: FitMethod;
	/**
	 * false, if not given: only the ratios of the reading errors are believed, and their size is taken from the scatter about the curve. true: they are taken as they are, and nothing else
	 * (flask, char, hand) is believed to scatter.
	 */
	readonly sigmaIsAbsolute?: boolean;
	/** What all intervals hold; 0.95 if not given. */
	readonly confidence?: number;
}

/**
 * Fits one isotherm to the points of one treatment.
 *
 * @throws ProblemError where the points cannot be fitted at all (too few, none read, no balance lines for "balance lines"); data that merely cannot support the isotherm do not throw: flags and
 * opinion say so
 * @example
 * // q = 100 x 0.1 C/(1 + 0.1 C), without errors
 * const points = isotherms.plainPoints("oak char", [10, 30, 90, 190], [50, 75, 90, 95]);
 * const fit = isotherms.fitIsotherm(isotherms.langmuir, points);
 * [...fit.theta] // => [100, 0.1]
 */
export function fitIsotherm(
	isotherm: Isotherm,
	points: IsothermPoints,
	options: IsothermFitOptions = {},
): IsothermFit {
	requireIsotherm(isotherm, "fitIsotherm");
	requirePoints(points, "fitIsotherm");
	requireOptions(options, fitRules, "fitIsotherm");
	return finish(isotherm, points, options, { is: "none" });
}

/** Options that are the same for every isotherm. */
export const methodRules: Readonly<Record<string, OptionRule>> = {
	method: wordOption("balance lines", "uptake on concentration"),
	sigmaIsAbsolute: yesNoOption,
	confidence: confidenceOption,
	search: wordOption("auto", "always", "never"),
};

const fitRules: Readonly<Record<string, OptionRule>> = {
	...methodRules,
	start: objectOption(
		"values by the names of parameters, such as { K_L: 0.01 }",
	),
	fixed: objectOption("values by the names of parameters, such as { n: 1 }"),
	lower: objectOption("values by the names of parameters, such as { K_L: 0 }"),
	upper: objectOption("values by the names of parameters, such as { n: 10 }"),
};

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
	const { confidence = usualConfidence, ...engine } = rest;
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
	requireOptions(
		options,
		{ ...fitRules, shared: listOption(textOption) },
		"fitIsothermTogether",
	);
	const { method: _, sigmaIsAbsolute = false, ...rest } = options;
	const { confidence = usualConfidence, shared, ...engine } = rest;
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
	const where = { call: quoted(points.name) };
	const without = points.points.filter((p) => p.balance.is === "not known");
	throwProblems([
		...(points.points.some((p) => p.is === "reading")
			? []
			: [
					problem(
						"no-residue-read",
						where,
						"no flask with a residue that could be read",
						"flasks with a measurable residue, at different doses",
						safeToDose(
							ammoniaInAny(points.flasks),
							`Dose more ${probeOf(points)}, or weigh less char.`,
						),
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
