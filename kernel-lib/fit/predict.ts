import { quadraticForm } from "../linear";
import {
	known,
	type MaybeKnown,
	mapKnown,
	notKnown,
	type OptionRule,
	optionProblems,
	type Problem,
	problem,
	throwProblems,
	yesNoOption,
} from "../quantity";
import { fQuantile } from "../stats";
import { requireFit } from "./doors";
import { twoSidedQuantile } from "./fit";
import type { Flag } from "./flag";
import type { Fit } from "./result";
import { derivativesOf, type FitData, flattenPredictors } from "./task";

export interface Band {
	readonly low: number;
	readonly high: number;
}

/** The fitted curve at one x. */
export interface PredictedPoint {
	/** One number per predictor. */
	readonly x: readonly number[];
	readonly value: number;
	/** Of the curve. */
	readonly standardError: MaybeKnown<number>;
	/** Where the curve itself lies; most measured points fall outside it. */
	readonly confidenceBandOfCurve: MaybeKnown<Band>;
	/** Where one new measured point would fall. */
	readonly predictionBandOfPoint: MaybeKnown<Band>;
	readonly extrapolating: Flag;
}

export interface PredictOptions {
	/** Standard deviation of a new point, in the unit of y; needed for the prediction band where the points had different sigmas. */
	readonly sigmaNew?: number;
	/** true: the confidence band holds for the whole curve at once (Scheffe); false, if not given: at each x by itself. */
	readonly simultaneous?: boolean;
}

/**
 * The curve at new x, with the confidence band of the curve and the prediction band of a point, by the delta method.
 * Source: Bates and Watts 1988, section 2.3.2.
 * @throws ProblemError where x does not suit the model, or the curve is not finite there
 * @example
 * const line = fit.defineModel({ name: "line", parameters: ["a", "b"], curve: (x, a, b) => a + b * x });
 * const found = fit.fit(line, { x: [0, 1, 2, 3], y: [1, 3, 3, 5] });
 * fit.predict(found, [1.5])[0].value // => 3
 * fit.predict(found, [9])[0].extrapolating.holds // => true
 */
export function predict(
	fit: Fit,
	x: FitData["x"],
	options: PredictOptions = {},
): PredictedPoint[] {
	requireFit(fit, "predict");
	const { task, theta } = fit;
	const { model } = task;
	const problems = optionProblems(options, optionRules, "predict");
	if (fit.scope === "several data sets")
		problems.push(
			problem(
				"which-data-set",
				{ call: "predict" },
				"the combined fit of several data sets",
				"the fit of one of them",
				"Take one of `sets` of the shared fit: x alone does not say which curve is meant.",
			),
		);
	const flat = flattenPredictors(x, model.predictors, problems);
	throwProblems(problems);
	const count = flat.length / model.predictors;
	const prepared = model.prepare(flat);
	const values = new Float64Array(count);
	model.evaluate(theta, prepared, values);
	throwProblems(notFinite(values));
	const jacobian = new Float64Array(theta.length * count);
	derivativesOf(task)(theta, prepared, jacobian);
	const forCurve = mapKnown(fit.covariance, () => curveFactor(fit, options));
	const forPoint = mapKnown(fit.covariance, () =>
		twoSidedQuantile(task, fit.degreesOfFreedom),
	);
	const sigmaNew = sigmaOfNewPoint(fit, options);
	return Array.from(values, (value, i) => {
		const at = Array.from(
			{ length: model.predictors },
			(_, c) => flat[c * count + i],
		);
		const variance = mapKnown(fit.covariance, (c) =>
			quadraticForm(
				c,
				theta.map((_, j) => jacobian[j * count + i]),
			),
		);
		const standardError = mapKnown(variance, Math.sqrt);
		const ofPoint: MaybeKnown<number> =
			sigmaNew.is === "value"
				? mapKnown(variance, (v) => Math.sqrt(v + sigmaNew.value ** 2))
				: sigmaNew;
		return {
			x: at,
			value,
			standardError,
			confidenceBandOfCurve: band(value, standardError, forCurve),
			predictionBandOfPoint: band(value, ofPoint, forPoint),
			extrapolating: extrapolatingFlag(fit, at),
		};
	});
}

function band(
	value: number,
	sd: MaybeKnown<number>,
	factor: MaybeKnown<number>,
): MaybeKnown<Band> {
	if (sd.is === "not known") return sd;
	return mapKnown(factor, (f) => ({
		low: value - f * sd.value,
		high: value + f * sd.value,
	}));
}

function curveFactor(fit: Fit, options: PredictOptions): number {
	const { task, freeParameters: p, degreesOfFreedom: df } = fit;
	return options.simultaneous
		? Math.sqrt(
				p *
					fQuantile(
						task.confidence,
						p,
						task.sigmaIsAbsolute ? Number.POSITIVE_INFINITY : df,
					),
			)
		: twoSidedQuantile(task, df);
}

function sigmaOfNewPoint(
	fit: Fit,
	options: PredictOptions,
): MaybeKnown<number> {
	if (options.sigmaNew !== undefined) return known(options.sigmaNew);
	const { whitening, sigmaIsAbsolute } = fit.task;
	const size: MaybeKnown<number> = sigmaIsAbsolute ? known(1) : fit.residualSD;
	if (whitening.kind === "none") return size;
	const { sigma } = whitening;
	return sigma.every((s) => s === sigma[0])
		? mapKnown(size, (s) => s * sigma[0])
		: notKnown(
				"the points had different sigmas; give sigmaNew, the standard deviation of the new point",
			);
}

function extrapolatingFlag(fit: Fit, at: readonly number[]): Flag {
	const { x, points } = fit.task;
	for (let c = 0; c < at.length; c++) {
		const column = x.subarray(c * points, (c + 1) * points);
		const least = column.reduce((a, b) => Math.min(a, b));
		const greatest = column.reduce((a, b) => Math.max(a, b));
		if (at[c] < least || at[c] > greatest)
			return {
				holds: true,
				reason: `x = ${at[c]} lies outside the measured range, ${least} to ${greatest}; nothing was measured there`,
			};
	}
	return { holds: false, reason: "x lies within the measured range" };
}

const optionRules: Readonly<Record<string, OptionRule>> = {
	sigmaNew: {
		expected: "a standard deviation, 0 or more, in the unit of y",
		accepts: (v) => typeof v === "number" && v >= 0 && Number.isFinite(v),
	},
	simultaneous: yesNoOption,
};

function notFinite(values: Float64Array): Problem[] {
	return Array.from(values, (v, i) => ({ v, i }))
		.filter(({ v }) => !Number.isFinite(v))
		.map(({ i }) =>
			problem(
				"curve-not-finite",
				{ column: "x", row: i + 1 },
				"an x where the curve is not finite",
				"an x where it is",
				"Leave this x out.",
			),
		);
}
