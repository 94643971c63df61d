import {
	listOption,
	mapKnown,
	notKnown,
	optionProblems,
	type Problem,
	problem,
	requireList,
	textOption,
	throwProblems,
} from "../quantity";
import { requireData, requireModel } from "./doors";
import { fitTask, rSquaredOf } from "./fit";
import { findStructure } from "./linearity";
import { defineModel, type Model } from "./model";
import { unknownParameters } from "./names";
import { numericalDerivatives } from "./numerical-derivatives";
import type { Fit } from "./result";
import { type ToldFit, told } from "./tables";
import {
	type FitData,
	type FitOptions,
	fitOptionRules,
	makeTask,
	type Points,
	positionsOnAxis,
	readPoints,
	type Task,
} from "./task";
import { whiten } from "./whitening";

export interface SharedFitOptions extends FitOptions {
	/** Names of the parameters that are the same in all data sets; the others are fitted for each set. */
	readonly shared: readonly string[];
}

/** A fit of several data sets at once. */
export interface SharedFit {
	/** All sets together. Parameters that are not shared are named after their set: `q [steam]`. */
	readonly combined: ToldFit;
	/** The same fit as seen from each set, in order: its own parameters and points, with errors and flags from all sets together. */
	readonly sets: readonly ToldFit[];
}

/**
 * Fits one model to several data sets with some parameters in common. Start values, fixed values and limits are named
 * as in the model (for every set) or after a set, as `q [steam]`. The residual SD is that of all sets together.
 * Every data set needs a name.
 * @throws ProblemError for everything that is wrong with the points or the options, all at once
 * @example
 * const line = fit.defineModel({ name: "line", parameters: ["a", "b"], curve: (x, a, b) => a + b * x });
 * const north = { name: "north", x: [0, 1, 2], y: [1, 3, 5] };
 * const south = { name: "south", x: [0, 1, 2], y: [2, 4, 6] };
 * const both = fit.fitShared(line, [north, south], { shared: ["b"] });
 * both.combined.parameters.map((p) => p.name) // => ["a [north]", "a [south]", "b"]
 * both.sets[1].parameters.map((p) => p.value) // => [2, 2]
 */
export function fitShared(
	model: Model,
	dataSets: readonly FitData[],
	options: SharedFitOptions,
): SharedFit {
	requireModel(model, "fitShared");
	throwProblems(
		optionProblems(
			options,
			{ ...fitOptionRules, shared: listOption(textOption) },
			"fitShared",
		),
	);
	requireList(dataSets, "the points of one set", "fitShared");
	for (const data of dataSets) requireData(data, "fitShared");
	const { shared = [], ...rest } = options;
	const problems = setProblems(model, dataSets, shared);
	if (options.shared === undefined)
		problems.push(
			problem(
				"shared-missing",
				{ call: "shared" },
				"no list of shared parameters",
				"the names of those that are the same in all data sets",
				`Give shared: ["${model.parameters[0].name}"], or [] for none.`,
			),
		);
	const points = dataSets.map((data) => readPoints(model, data, problems));
	throwProblems(problems);
	const layout = layOut(model, dataSets, shared);
	const task: Task = {
		...makeTask(
			compositeModel(model, points, layout),
			combinedData(model, dataSets, points),
			{
				...rest,
				start: forEverySet(rest.start, layout),
				fixed: forEverySet(rest.fixed, layout),
				lower: forEverySet(rest.lower, layout),
				upper: forEverySet(rest.upper, layout),
			},
		),
		setOfPoint: dataSets.flatMap((d, k) =>
			points[k].setOfPoint.map(() => d.name ?? ""),
		),
	};
	const combined = told({ ...fitTask(task), scope: "several data sets" });
	let first = 0;
	const sets = points.map((own, k) => {
		const view = viewOfSet(combined, model, own, layout.index[k], first);
		first += own.points;
		return told(view);
	});
	return { combined, sets };
}

/** Where each set's parameters stand among all. */
interface Layout {
	/** Names of all parameters of the combined fit. */
	readonly names: readonly string[];
	/** The model's parameter that each of them is. */
	readonly origin: readonly number[];
	/** index[k][j]: place of the model's parameter j for set k. */
	readonly index: readonly (readonly number[])[];
}

function layOut(
	model: Model,
	dataSets: readonly FitData[],
	shared: readonly string[],
): Layout {
	const names: string[] = [];
	const origin: number[] = [];
	const index: number[][] = dataSets.map(() => []);
	model.parameters.forEach(({ name }, j) => {
		const common = shared.includes(name);
		dataSets.forEach((data, k) => {
			if (!common || k === 0) {
				names.push(common ? name : `${name} [${data.name}]`);
				origin.push(j);
			}
			index[k].push(names.length - 1);
		});
	});
	return { names, origin, index };
}

/** Entries under a model's parameter name are meant for every set that has its own. */
function forEverySet(
	given: Readonly<Record<string, number>> | undefined,
	layout: Layout,
): Record<string, number> {
	const out: Record<string, number> = {};
	for (const [key, value] of Object.entries(given ?? {})) {
		const meant = layout.names.filter(
			(name) => name === key || name.startsWith(`${key} [`),
		);
		for (const name of meant.length > 0 ? meant : [key])
			if (name === key || !(name in (given ?? {}))) out[name] = value;
	}
	return out;
}

/** The model over all sets, one after the other. It keeps each set's prepared x and does not look at the x it is given. */
function compositeModel(
	model: Model,
	sets: readonly Points[],
	layout: Layout,
): Model {
	const size = model.parameters.length;
	const own = sets.map(() => new Float64Array(size));
	const gather = (all: Float64Array, k: number): Float64Array => {
		for (let j = 0; j < size; j++) own[k][j] = all[layout.index[k][j]];
		return own[k];
	};
	const blocks = sets.map((s) => new Float64Array(size * s.points));
	const starts = sets.map((_, k) =>
		sets.slice(0, k).reduce((sum, s) => sum + s.points, 0),
	);
	const total = sets.reduce((sum, s) => sum + s.points, 0);
	const fill =
		model.derivatives.kind === "given"
			? model.derivatives.fill
			: numericalDerivatives(model.evaluate, size, {
					linear: [],
					form: "none",
				});
	return defineModel({
		name: model.name,
		formula: model.formula,
		predictors: model.predictors,
		noneLinear: model.noneLinear,
		parameters: layout.names.map((name, c) => ({
			...model.parameters[layout.origin[c]],
			name,
		})),
		evaluate: (all, _x, out) => {
			sets.forEach((s, k) => {
				model.evaluate(
					gather(all, k),
					s.prepared,
					out.subarray(starts[k], starts[k] + s.points),
				);
			});
		},
		derivatives: (all, _x, out) => {
			out.fill(0);
			sets.forEach((s, k) => {
				fill(gather(all, k), s.prepared, blocks[k]);
				for (let j = 0; j < size; j++) {
					const column = layout.index[k][j] * total + starts[k];
					for (let i = 0; i < s.points; i++)
						out[column + i] = blocks[k][j * s.points + i];
				}
			});
		},
		...(model.start.kind === "from data"
			? { start: startOverSets(model.start.guess, sets, layout, size) }
			: {}),
	});
}

/** Each set's own start; for a shared parameter the mean over the sets. */
function startOverSets(
	guess: (x: Float64Array, y: Float64Array, out: Float64Array) => void,
	sets: readonly Points[],
	layout: Layout,
	size: number,
): (x: Float64Array, y: Float64Array, out: Float64Array) => void {
	return (_x, _y, out) => {
		const count = new Float64Array(out.length);
		out.fill(0);
		sets.forEach((s, k) => {
			const own = new Float64Array(size).fill(1);
			guess(s.prepared, s.y, own);
			own.forEach((v, j) => {
				out[layout.index[k][j]] += v;
				count[layout.index[k][j]]++;
			});
		});
		for (let c = 0; c < out.length; c++) out[c] /= count[c];
	};
}

function combinedData(
	model: Model,
	dataSets: readonly FitData[],
	sets: readonly Points[],
): FitData {
	const x = Array.from({ length: model.predictors }, (_, c) =>
		sets.flatMap((s) =>
			Array.from(s.x.subarray(c * s.points, (c + 1) * s.points)),
		),
	);
	const base = {
		x,
		y: sets.flatMap((s) => Array.from(s.y)),
		unitX: dataSets[0].unitX,
		unitY: dataSets[0].unitY,
		name: dataSets.map((d) => d.name).join(", "),
	};
	if (sets[0].whitening.kind === "none") return base;
	const sigmaIsAbsolute = sets[0].sigmaIsAbsolute;
	const sigmaY = sets.flatMap((s) =>
		s.whitening.kind === "none" ? [] : Array.from(s.whitening.sigma),
	);
	if (sets.every((s) => s.whitening.kind === "sigma"))
		return { ...base, sigmaY, sigmaIsAbsolute };
	let first = 0;
	const covarianceY = dataSets.flatMap((data, k) => {
		const from = first;
		first += sets[k].points;
		return Array.from({ length: sets[k].points }, (_, i) => {
			const row = new Float64Array(sigmaY.length);
			if (data.covarianceY === undefined) row[from + i] = sigmaY[from + i] ** 2;
			else row.set(Array.from(data.covarianceY[i]), from);
			return row;
		});
	});
	return { ...base, covarianceY, sigmaIsAbsolute };
}

/** The combined fit as one set sees it. */
function viewOfSet(
	combined: Fit,
	model: Model,
	own: Points,
	index: readonly number[],
	first: number,
): Fit {
	const { task } = combined;
	const pick = (from: Float64Array): Float64Array =>
		Float64Array.from(index, (c) => from[c]);
	const block = (from: Float64Array): Float64Array =>
		Float64Array.from(
			index.flatMap((a) =>
				index.map((b) => from[a * combined.theta.length + b]),
			),
		);
	const slice = (from: Float64Array): Float64Array =>
		from.slice(first, first + own.points);
	const theta = pick(combined.theta);
	const free = index.flatMap((c, j) => (task.free.includes(c) ? [j] : []));
	const residuals = slice(combined.residuals);
	const whitened = residuals.slice();
	whiten(own.whitening, whitened, 0, own.points);
	const rss = whitened.reduce((sum, r) => sum + r * r, 0);
	const ownTask: Task = {
		...task,
		...own,
		model,
		start: pick(task.start),
		lower: pick(task.lower),
		upper: pick(task.upper),
		free,
		structure: findStructure(
			(at, out) => model.evaluate(at, own.prepared, out),
			own.points,
			theta,
			free,
			positionsOnAxis(own.x),
		),
	};
	const notAlone = notKnown(
		"belongs to all sets together; see the combined fit",
	);
	return {
		...combined,
		scope: "one of several data sets",
		task: ownTask,
		parameters: index.map((c, j) => ({
			...combined.parameters[c],
			name: model.parameters[j].name,
		})),
		theta,
		covariance: mapKnown(combined.covariance, block),
		correlation: mapKnown(combined.correlation, block),
		points: own.points,
		freeParameters: free.length,
		residualSumOfSquares: rss,
		criteria: { aic: notAlone, aicc: notAlone, bic: notAlone },
		rSquared: rSquaredOf(rss, ownTask),
		fitted: slice(combined.fitted),
		residuals,
		standardisedResiduals: mapKnown(combined.standardisedResiduals, slice),
		leverage: mapKnown(combined.leverage, slice),
		lossWeights: slice(combined.lossWeights),
	};
}

function setProblems(
	model: Model,
	dataSets: readonly FitData[],
	shared: readonly string[],
): Problem[] {
	const problems = unknownParameters(
		shared,
		model.parameters.map((p) => p.name),
		"shared",
	);
	const names = dataSets.map((d) => d.name ?? "");
	if (dataSets.length < 2)
		problems.push(
			problem(
				"too-few-data-sets",
				{ call: "fitShared" },
				`${dataSets.length}`,
				"at least two data sets",
				"For one data set use fit.",
			),
		);
	if (names.some((n, k) => n === "" || names.indexOf(n) !== k))
		problems.push(
			problem(
				"data-set-names",
				{ call: "fitShared" },
				names.map((n) => `"${n}"`).join(", "),
				"a name for every data set, each once",
				'Add name: "..." to the data.',
			),
		);
	const errors = dataSets.map(
		(d) =>
			`${d.sigmaY === undefined && d.covarianceY === undefined ? "no errors" : "errors"}, absolute: ${d.sigmaIsAbsolute ?? false}`,
	);
	if (new Set(errors).size > 1)
		problems.push(
			problem(
				"unlike-errors",
				{ column: "sigmaY" },
				errors.map((e, k) => `${names[k]}: ${e}`).join("; "),
				"errors of y stated alike for all sets",
				"Give sigmaY (and the same sigmaIsAbsolute) for every set, or for none.",
			),
		);
	return problems;
}
