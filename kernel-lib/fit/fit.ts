import {
	fixed,
	known,
	knownIfFinite,
	listed,
	type MaybeKnown,
	mapKnown,
	notKnown,
	significant,
} from "../quantity";
import { normalQuantile, studentTQuantile } from "../stats";
import { type Factor, factorise, inverseOfNormalMatrix } from "./covariance";
import { informationCriteria } from "./criteria";
import { determinedFlag } from "./determined";
import { requireModel } from "./doors";
import type { Flag } from "./flag";
import type { Model } from "./model";
import type { Fit, FittedParameter, Interval } from "./result";
import { reweight, robustVariance } from "./robust";
import { isStationary, type Solution, solve } from "./solve";
import { type ToldFit, told } from "./tables";
import {
	type FitData,
	type FitOptions,
	makeTask,
	objectiveOf,
	type Task,
	whitenedResponse,
} from "./task";
import type { Objective } from "./workspace";

/**
 * Fits a curve to points by nonlinear least squares; shown as a table, a row for each parameter. Data that cannot support the fit do not throw: the result's flags and cautions say so.
 * Source: Bates and Watts 1988, Nonlinear Regression Analysis and its Applications, chapters 2 and 3 (from memory).
 * @throws ProblemError for everything that is wrong with the points or the options, all at once
 * @example
 * const line = fit.defineModel({ name: "line", parameters: ["a", "b"], curve: (x, a, b) => a + b * x });
 * const found = fit.fit(line, { x: [0, 1, 2, 3], y: [1, 3, 3, 5] });
 * found.parameters[1].value // => 1.2
 * found.residualSumOfSquares // => 0.8
 * found.parameters[1].standardError // => { "is": "value", "value": 0.282843 }
 * found.table.rows.map((row) => row[4]) // => [1.2, 1.2]
 */
export function fit(
	model: Model,
	data: FitData,
	options: FitOptions = {},
): ToldFit {
	requireModel(model, "fit");
	return told(fitTask(makeTask(model, data, options)));
}

/** Fits a task that was made and checked before. */
export function fitTask(task: Task): Fit {
	const rowFactors =
		task.loss === "squares"
			? new Float64Array(0)
			: new Float64Array(task.points).fill(1);
	const objective = objectiveOf(task, rowFactors);
	const response = whitenedResponse(task);
	const solution = solve(task, objective, response, task.start);
	const robust: Robust =
		task.loss === "squares"
			? { kind: "none" }
			: {
					kind: "done",
					...reweight(task, objective, response, rowFactors, solution),
				};
	rowFactors.fill(1);
	const theta = (robust.kind === "done" ? robust.theta : solution.theta).map(
		(v, j) => (Number.isFinite(v) ? v : task.start[j]),
	);
	const end = endOf(task, objective, response, theta);
	return judged({ task, objective, response, solution, robust, theta, ...end });
}

/** Where a fit ended, in numbers. */
interface End {
	readonly fitted: Float64Array;
	/** Residuals in units of the points' errors. */
	readonly whitened: Float64Array;
	readonly rss: number;
	/** Factor of the Jacobian by the free parameters that sit on no limit. */
	readonly factor: Factor;
	readonly degreesOfFreedom: number;
}

function endOf(
	task: Task,
	objective: Objective,
	response: Float64Array,
	theta: Float64Array,
): End {
	const n = task.points;
	const fitted = new Float64Array(n);
	task.model.evaluate(theta, task.prepared, fitted);
	const whitened = new Float64Array(n);
	objective.values(theta, whitened);
	for (let i = 0; i < n; i++) whitened[i] = response[i] - whitened[i];
	const open = task.free.filter((j) => limitOf(task, theta, j) === "none");
	return {
		fitted,
		whitened,
		rss: whitened.reduce((sum, r) => sum + r * r, 0),
		factor: factorise(objective, theta, open),
		degreesOfFreedom: n - open.length,
	};
}

/** A descent and where it ended. */
interface Ended extends End {
	readonly task: Task;
	readonly objective: Objective;
	/** y in units of the points' errors. */
	readonly response: Float64Array;
	readonly solution: Solution;
	readonly robust: Robust;
	readonly theta: Float64Array;
}

/** The result with its errors and flags: what the end is worth. */
function judged(ended: Ended): Fit {
	const { task, response, solution, robust, theta } = ended;
	const { fitted, whitened, rss, factor, degreesOfFreedom: df } = ended;
	const n = task.points;
	const p = factor.columns.length;
	const residualSD: MaybeKnown<number> =
		df > 0
			? known(robust.kind === "done" ? robust.scale : Math.sqrt(rss / df))
			: notKnown(noSpare(n, p));
	const variance = varianceFactor(task, rss, df, whitened, p, robust);
	const inverse = inverseOfNormalMatrix(factor, theta.length);
	const errorsAvailable = errorsFlag(
		factor,
		inverse,
		variance,
		solution,
		response,
		rss,
	);
	const covariance: MaybeKnown<Float64Array> = errorsAvailable.holds
		? mapKnown(variance, (v) => inverse.map((c) => c * v))
		: notKnown(errorsAvailable.reason);
	const parameters = task.model.parameters.map((_, j) =>
		fittedParameter(task, theta, j, covariance, errorsAvailable, df),
	);
	const converged = convergedFlag(task, solution, factor, robust);
	const leverage: MaybeKnown<Float64Array> = factor.singular
		? notKnown(notApart(task, factor))
		: known(factor.leverage);
	const fit: Fit = {
		kind: "fit",
		scope: "one data set",
		task,
		parameters,
		theta,
		covariance,
		correlation: mapKnown(covariance, (c) => correlationOf(c, theta.length)),
		condition: knownIfFinite(
			factor.condition,
			"the curve does not change with one of the parameters",
		),
		points: n,
		freeParameters: p,
		degreesOfFreedom: df,
		residualSumOfSquares: rss,
		residualSD,
		criteria: criteriaOf(task, rss),
		rSquared: rSquaredOf(rss, task),
		fitted,
		residuals: task.y.map((y, i) => y - fitted[i]),
		standardisedResiduals: standardised(whitened, leverage, residualSD, task),
		leverage,
		lossWeights:
			robust.kind === "done" ? robust.weights : new Float64Array(n).fill(1),
		converged,
		errorsAvailable,
		atLimit: atLimitFlag(parameters),
		determined: settledFlag(ended, parameters, converged),
		relativeOffset: solution.relativeOffset,
		evaluations:
			solution.evaluations + (robust.kind === "done" ? robust.evaluations : 0),
		descents: solution.descents,
		cautions: [],
	};
	return { ...fit, cautions: cautionsOf(fit, factor, response) };
}

/** Whether the data settle every parameter; none of a fit that did not converge. */
function settledFlag(
	ended: Ended,
	parameters: readonly FittedParameter[],
	converged: Flag,
): Flag {
	const { task, factor } = ended;
	if (factor.singular) return { holds: false, reason: notApart(task, factor) };
	if (!converged.holds) return { holds: false, reason: converged.reason };
	return determinedFlag({
		...ended,
		parameters,
		residualSumOfSquares: ended.rss,
	});
}

function criteriaOf(task: Task, rss: number): Fit["criteria"] {
	return task.loss === "squares"
		? informationCriteria({
				rss,
				points: task.points,
				freeParameters: task.free.length,
				sigmaIsAbsolute: task.sigmaIsAbsolute,
			})
		: noCriteria(task.loss);
}

type Robust =
	| { readonly kind: "none" }
	| ({ readonly kind: "done" } & ReturnType<typeof reweight>);

/** What (J'J)^-1 is multiplied by. */
function varianceFactor(
	task: Task,
	rss: number,
	df: number,
	whitened: Float64Array,
	p: number,
	robust: Robust,
): MaybeKnown<number> {
	if (robust.kind === "done")
		return df > 0
			? knownIfFinite(
					robustVariance(task.loss, whitened, robust.scale, p),
					"more than half of the points lie exactly on the curve, so the scatter of the others has no measure",
				)
			: notKnown(noSpare(task.points, p));
	if (task.sigmaIsAbsolute) return known(1);
	return df > 0 ? known(rss / df) : notKnown(noSpare(task.points, p));
}

function noSpare(points: number, parameters: number): string {
	return `${points} points for ${parameters} free parameters leave none to show the scatter`;
}

/** Where a free parameter sits on one of its limits. */
function limitOf(
	task: Task,
	theta: Float64Array,
	j: number,
): FittedParameter["limit"] {
	if (theta[j] <= task.lower[j]) return "at its lower limit";
	if (theta[j] >= task.upper[j]) return "at its upper limit";
	return "none";
}

function fittedParameter(
	task: Task,
	theta: Float64Array,
	j: number,
	covariance: MaybeKnown<Float64Array>,
	errorsAvailable: Flag,
	df: number,
): FittedParameter {
	const { name, unit } = task.model.parameters[j];
	const role = task.free.includes(j) ? "free" : "fixed";
	const limit = role === "free" ? limitOf(task, theta, j) : "none";
	const standardError: MaybeKnown<number> =
		role === "fixed"
			? notKnown("held at this value")
			: limit !== "none"
				? notKnown(`${limit}, so the data do not place it`)
				: covariance.is === "value"
					? known(Math.sqrt(covariance.value[j * theta.length + j]))
					: notKnown(errorsAvailable.reason);
	return {
		name,
		unit,
		value: theta[j],
		role,
		standardError,
		interval: mapKnown(standardError, (se) =>
			symmetricInterval(theta[j], se, task, df),
		),
		start: task.start[j],
		limit,
	};
}

/** Quantile by which a standard error is multiplied: Student's t, or the normal where the errors were given as absolute. */
export function twoSidedQuantile(task: Task, df: number): number {
	const p = 0.5 + task.confidence / 2;
	return task.sigmaIsAbsolute ? normalQuantile(p) : studentTQuantile(p, df);
}

function symmetricInterval(
	value: number,
	se: number,
	task: Task,
	df: number,
): Interval {
	const half = twoSidedQuantile(task, df) * se;
	return {
		low: { kind: "closed", value: value - half },
		high: { kind: "closed", value: value + half },
		confidence: task.confidence,
		method: task.sigmaIsAbsolute
			? "standard error times the normal quantile"
			: `standard error times Student's t with ${df} degrees of freedom`,
	};
}

function errorsFlag(
	factor: Factor,
	inverse: Float64Array,
	variance: MaybeKnown<number>,
	solution: Solution,
	response: Float64Array,
	rss: number,
): Flag {
	if (solution.stop === "not-finite")
		return { holds: false, reason: "the curve is not finite at these values" };
	if (!isStationary(solution.stop))
		return {
			holds: false,
			reason:
				"they are read from the curvature at a minimum, and none was reached",
		};
	if (factor.columns.length === 0)
		return { holds: false, reason: "every free parameter sits on a limit" };
	if (factor.singular)
		return {
			holds: false,
			reason:
				"some parameters cannot be distinguished: changing them together does not change the curve at these points",
		};
	if (variance.is === "not known")
		return { holds: false, reason: variance.because };
	if (!inverse.every((c) => Number.isFinite(c * variance.value)))
		return {
			holds: false,
			reason:
				"they are larger than the largest number: at these points the curve hardly changes with a parameter",
		};
	const digits = digitsOfScatter(response, rss);
	return {
		holds: true,
		reason:
			digits < 5
				? `from the curvature at the minimum, but the scatter is so near the rounding of the numbers that only about ${Math.max(0, Math.floor(digits))} digits of them mean anything`
				: "from the curvature at the minimum",
	};
}

/** Digits to which rounding lets the residuals be known. */
function digitsOfScatter(response: Float64Array, rss: number): number {
	const size = response.reduce((sum, y) => sum + y * y, 0);
	return Math.log10(Math.sqrt(rss / size) / 2.2e-16);
}

function convergedFlag(
	task: Task,
	solution: Solution,
	factor: Factor,
	robust: Robust,
): Flag {
	const no = (reason: string): Flag => ({ holds: false, reason });
	if (solution.stop === "not-finite")
		return no(
			"the curve or its derivatives are not finite at the start values",
		);
	if (solution.stop === "too-many-evaluations")
		return no(
			`the ${task.maxEvaluations} evaluations allowed were used up; the sum of squares was still falling`,
		);
	if (!isStationary(solution.stop))
		return no(
			"no step made the sum of squares smaller, yet the residuals still point along the curve: the values are where the iteration stopped, not a minimum",
		);
	if (factor.singular) return no(notApart(task, factor));
	if (solution.rival.kind === "found")
		return no(
			`other values fit equally well: ${describe(task, solution.rival.theta)}`,
		);
	if (solution.searched === "no agreement")
		return no(
			"searches from different start values ended in different minima; this is the lowest, but it was found too seldom to be sure of",
		);
	if (robust.kind === "done" && !robust.settled)
		return no("the weights of the robust loss did not settle");
	return {
		holds: true,
		reason:
			solution.stop === "rounding-level"
				? "at a minimum, as well as the rounding of the numbers lets it be known"
				: "at a minimum: the residuals no longer point along the curve (relative offset below the tolerance)",
	};
}

function describe(task: Task, theta: Float64Array): string {
	return task.free
		.map(
			(j) => `${task.model.parameters[j].name} = ${significant(theta[j], 4)}`,
		)
		.join(", ");
}

function notApart(task: Task, factor: Factor): string {
	const names = factor.columns
		.filter((_, i) => factor.weakest[i] > 0.1)
		.map((j) => task.model.parameters[j].name);
	return names.length === 1
		? `the curve at these points does not depend on ${names[0]}`
		: `only a combination of ${listed(names)} is settled by these points, not each by itself`;
}

function atLimitFlag(parameters: readonly FittedParameter[]): Flag {
	const held = parameters.filter((p) => p.limit !== "none");
	return held.length > 0
		? {
				holds: true,
				reason: held.map((p) => `${p.name} is ${p.limit}`).join("; "),
			}
		: { holds: false, reason: "no parameter sits on a limit" };
}

function correlationOf(covariance: Float64Array, size: number): Float64Array {
	return covariance.map((c, at) => {
		const i = Math.floor(at / size);
		const j = at % size;
		const scale = Math.sqrt(
			covariance[i * size + i] * covariance[j * size + j],
		);
		return i === j ? 1 : scale > 0 ? c / scale : 0;
	});
}

function noCriteria(loss: string): Fit["criteria"] {
	const none = notKnown(
		`not defined for the ${loss} loss, which is not a likelihood with a known constant`,
	);
	return { aic: none, aicc: none, bic: none };
}

/** Descriptive share of the scatter about the mean that the curve takes up. */
export function rSquaredOf(rss: number, task: Task): MaybeKnown<number> {
	if (task.whitening.kind === "covariance")
		return notKnown("not defined for correlated points");
	const weight = (i: number): number =>
		task.whitening.kind === "sigma" ? 1 / task.whitening.sigma[i] ** 2 : 1;
	let sumW = 0;
	let sumWy = 0;
	task.y.forEach((y, i) => {
		sumW += weight(i);
		sumWy += weight(i) * y;
	});
	let total = 0;
	task.y.forEach((y, i) => {
		total += weight(i) * (y - sumWy / sumW) ** 2;
	});
	return total > 0
		? known(1 - rss / total)
		: notKnown("all y are equal, so there is nothing to explain");
}

function standardised(
	whitened: Float64Array,
	leverage: MaybeKnown<Float64Array>,
	residualSD: MaybeKnown<number>,
	task: Task,
): MaybeKnown<Float64Array> {
	if (leverage.is === "not known") return leverage;
	const scale: MaybeKnown<number> = task.sigmaIsAbsolute
		? known(1)
		: residualSD;
	return mapKnown(scale, (s) =>
		whitened.map((r, i) => {
			const own = s * Math.sqrt(Math.max(0, 1 - leverage.value[i]));
			return own > 0 ? r / own : 0;
		}),
	);
}

function cautionsOf(
	fit: Fit,
	factor: Factor,
	response: Float64Array,
): string[] {
	const cautions: string[] = [];
	if (!fit.converged.holds)
		cautions.push(`Not converged: ${fit.converged.reason}.`);
	if (!fit.determined.holds && fit.determined.reason !== fit.converged.reason)
		cautions.push(`Not settled by these data: ${fit.determined.reason}.`);
	if (!fit.errorsAvailable.holds)
		cautions.push(`No standard errors: ${fit.errorsAvailable.reason}.`);
	else if (digitsOfScatter(response, fit.residualSumOfSquares) < 5)
		cautions.push(`Standard errors ${fit.errorsAvailable.reason}.`);
	if (fit.atLimit.holds) cautions.push(`On a limit: ${fit.atLimit.reason}.`);
	if (
		fit.degreesOfFreedom > 0 &&
		fit.degreesOfFreedom < 3 &&
		!fit.task.sigmaIsAbsolute
	)
		cautions.push(
			`Only ${fit.degreesOfFreedom} more point${fit.degreesOfFreedom === 1 ? "" : "s"} than free parameters: the intervals are wide and rest on very little.`,
		);
	if (fit.correlation.is === "value") {
		const pairs = strongPairs(fit, fit.correlation.value, factor.columns);
		if (pairs.length > 0)
			cautions.push(
				`Strongly correlated: ${pairs.join(", ")}; quote them together.`,
			);
	}
	return cautions;
}

/** Correlations above this are told to the reader. */
const strongCorrelation = 0.95;

function strongPairs(
	fit: Fit,
	correlation: Float64Array,
	columns: readonly number[],
): string[] {
	const size = fit.theta.length;
	return columns.flatMap((i, a) =>
		columns
			.slice(a + 1)
			.filter((j) => Math.abs(correlation[i * size + j]) > strongCorrelation)
			.map(
				(j) =>
					`${fit.parameters[i].name} and ${fit.parameters[j].name} (${fixed(correlation[i * size + j], 3)})`,
			),
	);
}
