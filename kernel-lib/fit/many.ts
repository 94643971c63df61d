import {
	objectOption,
	optionProblems,
	type Problem,
	problem,
	throwProblems,
} from "../quantity";
import { createDescent } from "./descent";
import { fitTask } from "./fit";
import type { Model } from "./model";
import { type OnProgress, progressOf } from "./progress";
import type { DescentSettings } from "./settings";
import { isFullRank, isStationary } from "./solve";
import {
	type FitData,
	type FitOptions,
	fitOptionRules,
	makeTask,
	objectiveOf,
	type Task,
} from "./task";
import { whiten } from "./whitening";
import type { Workspace } from "./workspace";

/** The result of one fit of a fitter. The arrays belong to the fitter and change with its next fit. */
export interface QuickFit {
	readonly parameters: Float64Array;
	/** NaN where there is none: a fixed parameter, or `errorsAvailable` false. For an explained result use `fit`. */
	readonly standardErrors: Float64Array;
	readonly residualSumOfSquares: number;
	readonly degreesOfFreedom: number;
	readonly converged: boolean;
	readonly errorsAvailable: boolean;
	readonly evaluations: number;
}

/** Fits one curve to many responses on the same points, with everything but the result prepared once. */
export interface Fitter {
	readonly task: Task;
	/** y must have one finite number per point; it is not checked here. */
	fit(y: ArrayLike<number>): QuickFit;
}

/**
 * A fitter for the points of `data`, whose y serves as the pattern. It makes the same fit as `fit` up to a relative
 * offset of 1e-6 (a millionth of a standard error or so); a response on which the descent meets trouble goes through the whole of `fit`, search and all.
 * Throws a ProblemError as `fit` does.
 */
export function createFitter(
	model: Model,
	data: FitData,
	options: FitOptions = {},
): Fitter {
	const task = makeTask(model, data, options);
	const n = task.points;
	const objective = objectiveOf(task);
	const descent = createDescent(objective, task.structure);
	const settings: DescentSettings = {
		lower: task.lower,
		upper: task.upper,
		tolerance: options.tolerance ?? 1e-6,
		maxEvaluations: task.maxEvaluations,
		firstRadius: 1,
	};
	const plain = new Float64Array(n);
	const response = new Float64Array(n);
	const guess = new Float64Array(task.start.length);
	const theta = new Float64Array(task.start.length);
	const standardErrors = new Float64Array(theta.length);
	const result = {
		parameters: theta,
		standardErrors,
		residualSumOfSquares: 0,
		degreesOfFreedom: 0,
		converged: false,
		errorsAvailable: false,
		evaluations: 0,
	};
	const useWholeFit = task.loss !== "squares" || task.search === "always";
	const free = Int32Array.from(task.free);

	const throughWholeFit = (): QuickFit => {
		const y = plain.slice();
		const whole = fitTask({ ...task, y, start: theta.slice() });
		theta.set(whole.theta);
		whole.parameters.forEach((p, j) => {
			standardErrors[j] =
				p.standardError.is === "value" ? p.standardError.value : Number.NaN;
		});
		result.residualSumOfSquares = whole.residualSumOfSquares;
		result.degreesOfFreedom = whole.degreesOfFreedom;
		result.converged = whole.converged.holds;
		result.errorsAvailable = whole.errorsAvailable.holds;
		result.evaluations = whole.evaluations;
		return result;
	};

	return {
		task,
		fit: (y) => {
			for (let i = 0; i < n; i++) {
				plain[i] = y[i];
				response[i] = y[i];
			}
			whiten(task.whitening, response, 0, n);
			for (let j = 0; j < theta.length; j++) theta[j] = task.start[j];
			if (task.startIsGuess && model.start.kind === "from data") {
				model.start.guess(task.prepared, plain, guess);
				for (let c = 0; c < free.length; c++) {
					const j = free[c];
					theta[j] = Math.min(task.upper[j], Math.max(task.lower[j], guess[j]));
				}
			}
			if (useWholeFit) return throughWholeFit();
			const w = descent.run(response, theta, settings);
			if (!isStationary(w.stop) || !isFullRank(w) || onLimit(task, theta)) {
				for (let j = 0; j < theta.length; j++)
					if (!Number.isFinite(theta[j])) theta[j] = task.start[j];
				return throughWholeFit();
			}
			const df = n - w.freeCount;
			result.residualSumOfSquares = w.rss;
			result.degreesOfFreedom = df;
			result.converged = true;
			result.errorsAvailable = df > 0 || task.sigmaIsAbsolute;
			result.evaluations = w.evaluations;
			const variance = task.sigmaIsAbsolute ? 1 : w.rss / df;
			fillStandardErrors(
				w,
				result.errorsAvailable ? Math.sqrt(variance) : Number.NaN,
				standardErrors,
			);
			return result;
		},
	};
}

function onLimit(task: Task, theta: Float64Array): boolean {
	for (let j = 0; j < theta.length; j++)
		if (
			(theta[j] <= task.lower[j] || theta[j] >= task.upper[j]) &&
			task.free.includes(j)
		)
			return true;
	return false;
}

/** Lengths of the rows of the inverse triangular factor, times `sd`. */
function fillStandardErrors(w: Workspace, sd: number, out: Float64Array): void {
	const { r, order, inverse } = w;
	const m = w.freeCount;
	for (let j = 0; j < out.length; j++) out[j] = Number.NaN;
	for (let i = m - 1; i >= 0; i--) {
		const diagonal = 1 / r[i * m + i];
		let squares = diagonal * diagonal;
		inverse[i * m + i] = diagonal;
		for (let c = i + 1; c < m; c++) {
			let sum = 0;
			for (let d = i + 1; d <= c; d++) sum -= r[i * m + d] * inverse[d * m + c];
			const v = sum * diagonal;
			inverse[i * m + c] = v;
			squares += v * v;
		}
		out[order[i]] = sd * Math.sqrt(squares);
	}
}

/** Fits of many data sets, one row each, in columns. */
export interface ManyFits {
	readonly parameters: readonly string[];
	/** values[j][i] is parameter j of data set i. */
	readonly values: readonly Float64Array[];
	/** NaN where there is none. */
	readonly standardErrors: readonly Float64Array[];
	readonly residualSumOfSquares: Float64Array;
	/** 1 where the fit converged, 0 where it did not. */
	readonly converged: Uint8Array;
}

export interface FitManyOptions extends FitOptions {
	/** Told how much is done, at most 20 times. */
	readonly onProgress?: OnProgress;
}

/**
 * Fits one model to many data sets, each with its own y; sets that follow each other with the same x and sigmas share
 * their preparation. Throws a ProblemError that lists all that is wrong with the sets or the options.
 */
export function fitMany(
	model: Model,
	dataSets: readonly FitData[],
	options: FitManyOptions = {},
): ManyFits {
	throwProblems([
		...optionProblems(
			options,
			{ ...fitOptionRules, onProgress: objectOption("a function") },
			"fitMany",
		),
		...setProblems(dataSets),
	]);
	const { onProgress, ...fitOptions } = options;
	const tell = progressOf(dataSets.length, onProgress);
	const count = dataSets.length;
	const columns = (): Float64Array[] =>
		model.parameters.map(() => new Float64Array(count));
	const values = columns();
	const standardErrors = columns();
	const residualSumOfSquares = new Float64Array(count);
	const converged = new Uint8Array(count);
	let fitter = createFitter(model, dataSets[0], fitOptions);
	dataSets.forEach((data, i) => {
		const before = dataSets[Math.max(0, i - 1)];
		if (
			data.x !== before.x ||
			data.sigmaY !== before.sigmaY ||
			data.covarianceY !== before.covarianceY ||
			data.sigmaIsAbsolute !== before.sigmaIsAbsolute ||
			data.y.length !== before.y.length
		)
			fitter = createFitter(model, data, fitOptions);
		const one = fitter.fit(data.y);
		for (let j = 0; j < values.length; j++) {
			values[j][i] = one.parameters[j];
			standardErrors[j][i] = one.standardErrors[j];
		}
		residualSumOfSquares[i] = one.residualSumOfSquares;
		converged[i] = one.converged ? 1 : 0;
		tell(i + 1);
	});
	return {
		parameters: model.parameters.map((p) => p.name),
		values,
		standardErrors,
		residualSumOfSquares,
		converged,
	};
}

/** What a fitter does not look at again: every y must be there and finite. */
function setProblems(dataSets: readonly FitData[]): Problem[] {
	if (dataSets.length === 0)
		return [
			problem(
				"too-few-data-sets",
				{ call: "dataSets" },
				"none",
				"at least one data set",
				"Give [{ x: [...], y: [...] }, ...].",
			),
		];
	return dataSets.flatMap(({ y, name }, k) =>
		Array.from(y ?? [], (v, i) => ({ v, i }))
			.filter(({ v }) => !Number.isFinite(v))
			.map(({ v, i }) =>
				problem(
					"not-a-number",
					{ column: `y of data set ${name ?? k + 1}`, row: i + 1 },
					String(v),
					"a finite number",
					"Leave the point out, or give its value.",
				),
			),
	);
}
