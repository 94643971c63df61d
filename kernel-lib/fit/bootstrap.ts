import {
	known,
	type MaybeKnown,
	notKnown,
	numberOption,
	type OptionRule,
	objectOption,
	optionProblems,
	type Problem,
	problem,
	throwProblems,
	wordOption,
} from "../quantity";
import {
	createRandom,
	normalCdf,
	normalQuantile,
	noteSeed,
	type Random,
} from "../stats";
import { createDescent } from "./descent";
import { requireFit } from "./doors";
import { type OnProgress, progressOf } from "./progress";
import { type Fit, type Interval, needsAllSets } from "./result";
import type { DescentSettings } from "./settings";
import { isStationary } from "./solve";
import { objectiveOf, type Task, whitenedResponse } from "./task";

/**
 * What is drawn anew in each resample.
 * - "residual": the residuals (widened by their leverage and centred), put onto the fitted curve. Trusts the curve and equal errors.
 * - "case": the points themselves, with replacement. Trusts neither, but needs more points.
 * - "parametric": normal errors of the estimated (or absolute) size, put onto the fitted curve.
 */
export type BootstrapKind = "residual" | "case" | "parametric";

export interface BootstrapOptions {
	/** "residual" if not given. */
	readonly kind?: BootstrapKind;
	/** 2000 if not given. */
	readonly resamples?: number;
	/** 1 if not given; the same seed gives the same intervals. */
	readonly seed?: number;
	/** "BCa" (bias-corrected and accelerated) if not given, or plain percentiles. */
	readonly interval?: "BCa" | "percentile";
	/** Told how much is done, at most 20 times. */
	readonly onProgress?: OnProgress;
}

export interface BootstrapParameter {
	readonly name: string;
	readonly unit: string;
	readonly value: number;
	/** Mean of the resampled estimates less the estimate. */
	readonly bias: MaybeKnown<number>;
	readonly standardError: MaybeKnown<number>;
	readonly interval: MaybeKnown<Interval>;
}

export interface BootstrapResult {
	readonly kind: BootstrapKind;
	readonly resamples: number;
	/** Resamples on which the fit did not converge; left out of everything. */
	readonly failed: number;
	readonly parameters: readonly BootstrapParameter[];
	/** The estimates of all resamples that converged, one column of free parameters after the other. */
	readonly draws: readonly Float64Array[];
}

/** Share of failed resamples above which the rest is no fair sample. */
const mostFailed = 0.05;

/**
 * Refits the curve to resampled points and reports how its parameters scatter.
 * Source: Efron and Tibshirani 1993, An Introduction to the Bootstrap, chapters 9, 13 and 14; leverage-widened
 * residuals: Davison and Hinkley 1997, Bootstrap Methods and their Application, section 6.2.3.
 * @throws ProblemError for options that it does not have or cannot take
 * @example
 * const line = fit.defineModel({ name: "line", parameters: ["a", "b"], curve: (x, a, b) => a + b * x });
 * const found = fit.fit(line, { x: [0, 1, 2, 3], y: [1, 3, 3, 5] });
 * const again = fit.bootstrap(found, { resamples: 200, seed: 1 });
 * again.parameters.map((p) => p.value) // => [1.2, 1.2]
 * again.draws[0].length + again.failed // => 200
 */
export function bootstrap(
	fit: Fit,
	options: BootstrapOptions = {},
): BootstrapResult {
	requireFit(fit, "bootstrap");
	throwProblems(problemsOf(fit, options));
	const kind = options.kind ?? "residual";
	const resamples = options.resamples ?? 2000;
	const { task } = fit;
	const reason = whyNoBootstrap(fit);
	const seed = options.seed ?? 1;
	if (reason === "") noteSeed("bootstrap", seed);
	const draws = task.free.map(() => new Float64Array(resamples));
	const done =
		reason === ""
			? resample(
					fit,
					kind,
					createRandom(seed),
					draws,
					progressOf(resamples, options.onProgress),
				)
			: 0;
	const used = draws.map((d) => d.subarray(0, done));
	const failed = reason === "" ? resamples - done : 0;
	const trouble =
		reason !== ""
			? reason
			: failed > mostFailed * resamples
				? `${failed} of ${resamples} resamples did not converge, so the others are no fair sample`
				: "";
	const accelerations =
		trouble === "" && (options.interval ?? "BCa") === "BCa"
			? jackknifeAccelerations(fit)
			: [];
	const parameters = task.free.map((j, c) => {
		const { name, unit } = task.model.parameters[j];
		const base = { name, unit, value: fit.theta[j] };
		if (trouble !== "") {
			const none = notKnown(trouble);
			return { ...base, bias: none, standardError: none, interval: none };
		}
		const mean = used[c].reduce((s, v) => s + v, 0) / done;
		const variance =
			used[c].reduce((s, v) => s + (v - mean) ** 2, 0) / (done - 1);
		return {
			...base,
			bias: known(mean - fit.theta[j]),
			standardError: known(Math.sqrt(variance)),
			interval: intervalOf(
				used[c].slice().sort(),
				fit.theta[j],
				task.confidence,
				accelerations.length > 0
					? { kind: "BCa", acceleration: accelerations[c] }
					: { kind: "percentile" },
				kind,
			),
		};
	});
	return { kind, resamples, failed, parameters, draws: used };
}

function settingsOf(task: Task): DescentSettings {
	return {
		lower: task.lower,
		upper: task.upper,
		// In standard errors; the ends of the intervals scatter a thousand times as much.
		tolerance: 1e-5,
		maxEvaluations: 100,
		firstRadius: 1,
	};
}

/** Fills the columns of `draws` and returns how many resamples converged. */
function resample(
	fit: Fit,
	kind: BootstrapKind,
	random: Random,
	draws: readonly Float64Array[],
	tell: (done: number) => void,
): number {
	const { task } = fit;
	const n = task.points;
	const rowFactors = new Float64Array(kind === "case" ? n : 0);
	const objective = objectiveOf(task, rowFactors);
	const descent = createDescent(objective, task.structure);
	const settings = settingsOf(task);
	const response = whitenedResponse(task);
	const curve = new Float64Array(n);
	if (kind !== "case") objective.values(fit.theta, curve);
	const residuals = widenedResiduals(fit, response);
	const size =
		task.sigmaIsAbsolute || fit.residualSD.is === "not known"
			? 1
			: fit.residualSD.value;
	const drawn = new Float64Array(n);
	const places = new Float64Array(n);
	const theta = new Float64Array(fit.theta.length);
	const free = Int32Array.from(task.free);
	let done = 0;
	for (let round = 0; round < draws[0].length; round++) {
		if (kind === "residual") {
			random.fillUniform(places);
			for (let i = 0; i < n; i++)
				drawn[i] = curve[i] + residuals[Math.floor(n * places[i])];
		} else if (kind === "parametric") {
			random.fillNormal(places);
			for (let i = 0; i < n; i++) drawn[i] = curve[i] + size * places[i];
		} else {
			rowFactors.fill(0);
			random.fillUniform(places);
			for (let i = 0; i < n; i++) rowFactors[Math.floor(n * places[i])]++;
			for (let i = 0; i < n; i++) {
				rowFactors[i] = Math.sqrt(rowFactors[i]);
				drawn[i] = response[i] * rowFactors[i];
			}
		}
		for (let j = 0; j < theta.length; j++) theta[j] = fit.theta[j];
		const reached = descent.run(drawn, theta, settings);
		tell(round + 1);
		if (!isStationary(reached.stop)) continue;
		for (let c = 0; c < free.length; c++) draws[c][done] = theta[free[c]];
		done++;
	}
	return done;
}

/** Whitened residuals, each over the root of 1 - leverage, less their mean. */
function widenedResiduals(fit: Fit, response: Float64Array): Float64Array {
	const { leverage, task } = fit;
	const curve = new Float64Array(task.points);
	objectiveOf(task).values(fit.theta, curve);
	const wide = response.map((y, i) => {
		const room = leverage.is === "value" ? 1 - leverage.value[i] : 1;
		return room > 1e-9 ? (y - curve[i]) / Math.sqrt(room) : 0;
	});
	const mean = wide.reduce((s, r) => s + r, 0) / wide.length;
	return wide.map((r) => r - mean);
}

/** Accelerations of the free parameters from leaving out one point at a time (Efron and Tibshirani 1993, equation 14.15); 0 where that fails. */
function jackknifeAccelerations(fit: Fit): number[] {
	const { task } = fit;
	const n = task.points;
	const rowFactors = new Float64Array(n);
	const objective = objectiveOf(task, rowFactors);
	const descent = createDescent(objective, task.structure);
	const settings = settingsOf(task);
	const response = whitenedResponse(task);
	const estimates = task.free.map(() => [] as number[]);
	const theta = new Float64Array(fit.theta.length);
	for (let left = 0; left < n; left++) {
		rowFactors.fill(1);
		rowFactors[left] = 0;
		const drawn = response.map((y, i) => y * rowFactors[i]);
		theta.set(fit.theta);
		if (!isStationary(descent.run(drawn, theta, settings).stop)) continue;
		task.free.forEach((j, c) => {
			estimates[c].push(theta[j]);
		});
	}
	return estimates.map((values) => {
		const mean = values.reduce((s, v) => s + v, 0) / values.length;
		let squares = 0;
		let cubes = 0;
		for (const v of values) {
			squares += (mean - v) ** 2;
			cubes += (mean - v) ** 3;
		}
		return squares > 0 ? cubes / (6 * squares ** 1.5) : 0;
	});
}

function intervalOf(
	sorted: Float64Array,
	value: number,
	confidence: number,
	how:
		| { readonly kind: "percentile" }
		| { readonly kind: "BCa"; readonly acceleration: number },
	resampled: BootstrapKind,
): MaybeKnown<Interval> {
	const alpha = (1 - confidence) / 2;
	let low = alpha;
	let high = 1 - alpha;
	if (how.kind === "BCa") {
		const below = sorted.findIndex((v) => v >= value);
		const share = (below < 0 ? sorted.length : below) / sorted.length;
		if (share === 0 || share === 1)
			return notKnown(
				`every resampled estimate lies on one side of the estimate; take interval: "percentile" and ask why`,
			);
		const bias = normalQuantile(share);
		const shifted = (p: number): number => {
			const z = bias + normalQuantile(p);
			return normalCdf(bias + z / (1 - how.acceleration * z));
		};
		low = shifted(alpha);
		high = shifted(1 - alpha);
	}
	return known({
		low: { kind: "closed", value: quantileOfSorted(sorted, low) },
		high: { kind: "closed", value: quantileOfSorted(sorted, high) },
		confidence,
		method: `${resampled} bootstrap, ${how.kind}`,
	});
}

/** Linear interpolation between order statistics (the default of R and numpy). */
function quantileOfSorted(sorted: Float64Array, p: number): number {
	const at = p * (sorted.length - 1);
	const below = Math.floor(at);
	const above = Math.min(below + 1, sorted.length - 1);
	return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
}

function whyNoBootstrap(fit: Fit): string {
	if (fit.task.loss !== "squares")
		return `the bootstrap here refits by least squares, and this fit used the ${fit.task.loss} loss`;
	if (fit.scope === "one of several data sets") return needsAllSets;
	if (!fit.converged.holds) return fit.converged.reason;
	if (fit.degreesOfFreedom === 0 && !fit.task.sigmaIsAbsolute)
		return "as many free parameters as points leave no scatter to draw from";
	return "";
}

const optionRules: Readonly<Record<string, OptionRule>> = {
	kind: wordOption("residual", "case", "parametric"),
	resamples: {
		expected:
			"a whole number from 100 to 1000000; the ends of an interval need hundreds of resamples, 2000 is usual",
		accepts: (v) =>
			Number.isInteger(v) && (v as number) >= 100 && (v as number) <= 1e6,
	},
	seed: numberOption(Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY),
	interval: wordOption("BCa", "percentile"),
	onProgress: objectOption("a function"),
};

function problemsOf(fit: Fit, options: BootstrapOptions): Problem[] {
	const problems = optionProblems(options, optionRules, "bootstrap");
	if (problems.length > 0) return problems;
	if (options.kind === "case" && fit.task.whitening.kind === "covariance")
		problems.push(
			problem(
				"case-bootstrap-of-correlated-points",
				{ call: "kind" },
				`"case" with covarianceY`,
				`"residual" or "parametric"`,
				"Correlated points cannot be drawn one by one.",
			),
		);
	return problems;
}
