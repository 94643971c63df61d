import { choleskyFactor, rowsOf } from "../linear";
import {
	countOption,
	numberOption,
	type OptionRule,
	objectOption,
	optionProblems,
	type Problem,
	problem,
	requireNumbers,
	throwProblems,
	wordOption,
} from "../quantity";
import { requireData } from "./doors";
import { findStructure, type Structure, structureOfNone } from "./linearity";
import type { DerivativesOverArray, Model } from "./model";
import { unknownNames, unknownParameters } from "./names";
import { numericalDerivatives } from "./numerical-derivatives";
import { type Whitening, whiten } from "./whitening";
import type { Objective } from "./workspace";

/** The points to be fitted. */
export interface FitData {
	/** One number per point; for a model with several predictors, an array of such columns. */
	readonly x: ArrayLike<number> | readonly ArrayLike<number>[];
	readonly y: ArrayLike<number>;
	/** Standard deviation of y, in the unit of y: one for all points, or one per point. */
	readonly sigmaY?: number | ArrayLike<number>;
	/** Covariance matrix of the points' errors, in the unit of y squared, instead of `sigmaY`. */
	readonly covarianceY?: readonly ArrayLike<number>[];
	/**
	 * Must be said with `sigmaY` or `covarianceY`. true: they are the real errors, and the errors of the parameters follow
	 * from them alone. false: only their ratios are known, and their size is estimated from the scatter about the curve.
	 */
	readonly sigmaIsAbsolute?: boolean;
	readonly unitX?: string;
	readonly unitY?: string;
	/** Name of the data set, for tables. */
	readonly name?: string;
}

export type Loss = "squares" | "Huber" | "Cauchy";

export interface FitOptions {
	/** Start values by name. Not needed for parameters in which the curve is linear, nor where the model makes its own. */
	readonly start?: Readonly<Record<string, number>>;
	/** Parameters held at these values. */
	readonly fixed?: Readonly<Record<string, number>>;
	readonly lower?: Readonly<Record<string, number>>;
	readonly upper?: Readonly<Record<string, number>>;
	/** Of all intervals; 0.95 if not given. */
	readonly confidence?: number;
	/** "squares" if not given; "Huber" and "Cauchy" let far points count less. */
	readonly loss?: Loss;
	/**
	 * Whether to look for a lower minimum than the one next to the start. "auto" (if not given): always from start values
	 * that were typed in, and after trouble from those that the model makes itself.
	 */
	readonly search?: "auto" | "always" | "never";
	/** Relative offset (Bates and Watts) at which the iteration ends; 1e-11 if not given. */
	readonly tolerance?: number;
	/** Evaluations of the curve that one descent may take; 400 if not given. */
	readonly maxEvaluations?: number;
	/** Seed of the search's random starts; 1 if not given. */
	readonly seed?: number;
}

const dataKeys: readonly string[] = [
	"x",
	"y",
	"sigmaY",
	"covarianceY",
	"sigmaIsAbsolute",
	"unitX",
	"unitY",
	"name",
];

const valuesByName = objectOption("values by name, such as { k: 0.5 }");

/** What the options of every fit may hold. */
export const fitOptionRules: Readonly<Record<string, OptionRule>> = {
	start: valuesByName,
	fixed: valuesByName,
	lower: valuesByName,
	upper: valuesByName,
	confidence: numberOption(0, 1),
	loss: wordOption("squares", "Huber", "Cauchy"),
	search: wordOption("auto", "always", "never"),
	tolerance: numberOption(0, 1),
	maxEvaluations: countOption(1),
	seed: numberOption(Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY),
};

/** The points of a task, checked. */
export interface Points {
	readonly name: string;
	readonly unitX: string;
	readonly unitY: string;
	/** x as given, one column after the other. */
	readonly x: Float64Array;
	/** x as the model wants it. */
	readonly prepared: Float64Array;
	readonly y: Float64Array;
	readonly points: number;
	readonly whitening: Whitening;
	readonly sigmaIsAbsolute: boolean;
	/** Name of the data set that each point belongs to; all alike but for a fit of several sets. */
	readonly setOfPoint: readonly string[];
}

/** A fit made ready: checked, with every default filled in. What the results refer back to. */
export interface Task extends Points {
	readonly model: Model;
	readonly start: Float64Array;
	readonly startIsGuess: boolean;
	readonly lower: Float64Array;
	readonly upper: Float64Array;
	readonly free: readonly number[];
	readonly structure: Structure;
	readonly confidence: number;
	readonly loss: Loss;
	readonly search: "auto" | "always" | "never";
	readonly tolerance: number;
	readonly maxEvaluations: number;
	readonly seed: number;
}

/** Checks everything at once and throws a ProblemError with all that is wrong. */
export function makeTask(
	model: Model,
	data: FitData,
	options: FitOptions,
): Task {
	const names = model.parameters.map((p) => p.name);
	const problems = [
		...optionProblems(options, fitOptionRules, "fit"),
		...(["start", "fixed", "lower", "upper"] as const).flatMap((option) =>
			unknownParameters(Object.keys(options[option] ?? {}), names, option),
		),
		...valueProblems(options),
	];
	const points = readPoints(model, data, problems);
	const { x, y, prepared } = points;
	const lower = limits(model, options.lower ?? {}, "lower");
	const upper = limits(model, options.upper ?? {}, "upper");
	const fixed = options.fixed ?? {};
	const free = names.flatMap((name, j) => (name in fixed ? [] : [j]));
	problems.push(...countProblems(free.length, y.length));
	throwProblems(problems);

	const given = options.start ?? {};
	const start = startValues(points, model, lower, upper, {
		...given,
		...fixed,
	});
	const structure = model.noneLinear
		? structureOfNone(free)
		: findStructure(
				(theta, out) => model.evaluate(theta, prepared, out),
				y.length,
				start,
				free,
				positionsOnAxis(x),
			);
	throwProblems(
		startProblems(model, start, lower, upper, structure, given, free),
	);
	return {
		...points,
		model,
		start,
		startIsGuess:
			model.start.kind === "from data" && Object.keys(given).length === 0,
		lower,
		upper,
		free,
		structure,
		confidence: options.confidence ?? 0.95,
		loss: options.loss ?? "squares",
		search: options.search ?? "auto",
		tolerance: options.tolerance ?? 1e-11,
		maxEvaluations: options.maxEvaluations ?? 400,
		seed: options.seed ?? 1,
	};
}

/** Start values of all parameters: those given, else the model's own guess within the limits, else 1. */
function startValues(
	{ prepared, y }: Points,
	model: Model,
	lower: Float64Array,
	upper: Float64Array,
	given: Readonly<Record<string, number>>,
): Float64Array {
	const start = new Float64Array(model.parameters.length).fill(1);
	if (model.start.kind === "from data") model.start.guess(prepared, y, start);
	return start.map((guess, j) => {
		const { name } = model.parameters[j];
		return name in given
			? given[name]
			: Math.min(upper[j], Math.max(lower[j], guess));
	});
}

function countProblems(freeParameters: number, points: number): Problem[] {
	const problems: Problem[] = [];
	if (freeParameters === 0)
		problems.push(
			problem(
				"nothing-to-fit",
				{ call: "fixed" },
				"every parameter fixed",
				"at least one free parameter",
				"Leave one out of `fixed`.",
			),
		);
	if (points < freeParameters)
		problems.push(
			problem(
				"too-few-points",
				{ column: "y" },
				`${points} points for ${freeParameters} free parameters`,
				"at least as many points as free parameters, better twice as many",
				"Measure more points, fix a parameter, or take a simpler model.",
			),
		);
	return problems;
}

/** Reads the points and adds what is wrong with them to `problems`. */
export function readPoints(
	model: Model,
	data: FitData,
	problems: Problem[],
): Points {
	requireData(data, "the data");
	problems.push(...unknownNames(data, dataKeys, "data"));
	for (const column of ["x", "y"] as const)
		if (data[column] === undefined)
			problems.push(
				problem(
					"column-missing",
					{ column },
					`no ${column}`,
					"one number per point",
					`Give ${column}: [...].`,
				),
			);
	if (data.y !== undefined) requireNumbers(data.y, "y of the data");
	const y = Float64Array.from(data.y ?? []);
	y.forEach((v, i) => {
		if (!Number.isFinite(v)) problems.push(notANumber("y", i, v));
	});
	const x = flatten(data.x ?? y, y.length, model.predictors, problems);
	return {
		name: data.name ?? "",
		unitX: data.unitX ?? "",
		unitY: data.unitY ?? "",
		x,
		prepared: model.prepare(x),
		y,
		points: y.length,
		whitening: readErrors(data, y.length, problems),
		sigmaIsAbsolute: data.sigmaIsAbsolute ?? false,
		setOfPoint: Array.from(y, () => data.name ?? ""),
	};
}

/** The model's own derivatives, or numerical ones. */
export function derivativesOf(task: Task): DerivativesOverArray {
	const { model, structure } = task;
	return model.derivatives.kind === "given"
		? model.derivatives.fill
		: numericalDerivatives(model.evaluate, model.parameters.length, structure);
}

/** The task's sum of squares. `rowFactors`, if not empty, multiply the whitened residuals and may be changed between evaluations. */
export function objectiveOf(
	task: Task,
	rowFactors: Float64Array = new Float64Array(0),
): Objective {
	const { model, prepared, whitening, points } = task;
	const size = model.parameters.length;
	const derivatives = derivativesOf(task);
	const plain = whitening.kind === "none" && rowFactors.length === 0;
	const treat = (column: Float64Array, offset: number): void => {
		whiten(whitening, column, offset, points);
		for (let i = 0; i < rowFactors.length; i++)
			column[offset + i] *= rowFactors[i];
	};
	return {
		points,
		size,
		values: (theta, out) => {
			model.evaluate(theta, prepared, out);
			if (!plain) treat(out, 0);
		},
		jacobian: (theta, out) => {
			derivatives(theta, prepared, out);
			if (!plain) for (let j = 0; j < size; j++) treat(out, j * points);
		},
	};
}

/** Up to 40 places on the x axis, in order. */
export function positionsOnAxis(x: Float64Array): number[] {
	const sorted = Float64Array.from(new Set(x)).sort();
	const count = Math.min(40, sorted.length);
	return Array.from(
		{ length: count },
		(_, i) =>
			sorted[Math.round((i * (sorted.length - 1)) / Math.max(1, count - 1))],
	);
}

/** y in units of the points' errors. */
export function whitenedResponse(task: Task): Float64Array {
	const y = task.y.slice();
	whiten(task.whitening, y, 0, task.points);
	return y;
}

/** Checks x against the number of points and lays its columns one after the other. */
function flatten(
	x: FitData["x"],
	points: number,
	predictors: number,
	problems: Problem[],
): Float64Array {
	const columns = columnsOf(x);
	if (columns.length !== predictors)
		problems.push(
			problem(
				"wrong-number-of-predictors",
				{ column: "x" },
				`${columns.length} column${columns.length === 1 ? "" : "s"} of x`,
				`${predictors}, as the model says`,
				"Give x as an array of columns, one per predictor.",
			),
		);
	const flat = new Float64Array(columns.length * points);
	columns.forEach((column, c) => {
		const name = columns.length === 1 ? "x" : `x, column ${c + 1}`;
		if (column.length !== points)
			problems.push(
				problem(
					"unequal-lengths",
					{ column: name },
					`${column.length} values`,
					`${points}, one for each point`,
					"Give every point its x.",
				),
			);
		for (let i = 0; i < points; i++) {
			flat[c * points + i] = column[i];
			if (i < column.length && !Number.isFinite(column[i]))
				problems.push(notANumber(name, i, column[i]));
		}
	});
	return flat;
}

/** As `flatten`, for x without y: the first column says how many points there are. */
export function flattenPredictors(
	x: FitData["x"],
	predictors: number,
	problems: Problem[],
): Float64Array {
	return flatten(x, columnsOf(x)[0].length, predictors, problems);
}

function columnsOf(x: FitData["x"]): readonly ArrayLike<number>[] {
	requireNumbers(x, "x of the data");
	const columns =
		x.length > 0 && typeof x[0] === "object"
			? (x as readonly ArrayLike<number>[])
			: [x as ArrayLike<number>];
	for (const column of columns) requireNumbers(column, "x of the data");
	return columns;
}

function notANumber(column: string, index: number, found: number): Problem {
	return problem(
		"not-a-number",
		{ column, row: index + 1 },
		String(found),
		"a finite number",
		"Leave the point out, or give its value.",
	);
}

function readErrors(
	data: FitData,
	points: number,
	problems: Problem[],
): Whitening {
	problems.push(...errorStatementProblems(data));
	if (data.sigmaY !== undefined)
		return {
			kind: "sigma",
			sigma: readSigma(data.sigmaY, points, problems),
		};
	return data.covarianceY === undefined
		? { kind: "none" }
		: readCovariance(data.covarianceY, points, problems);
}

/** What is wrong with the way in which the errors of y are stated: without their meaning, twice, or a meaning without errors. */
function errorStatementProblems(data: FitData): Problem[] {
	const given = data.sigmaY !== undefined || data.covarianceY !== undefined;
	const problems: Problem[] = [];
	if (given && data.sigmaIsAbsolute === undefined)
		problems.push(
			problem(
				"sigma-meaning-not-said",
				{ call: "sigmaIsAbsolute" },
				"errors of y without sigmaIsAbsolute",
				"true (these are the real errors) or false (only their ratios are known)",
				"Say which: it decides whether the scatter about the curve changes the errors of the parameters.",
			),
		);
	if (!given && data.sigmaIsAbsolute !== undefined)
		problems.push(
			problem(
				"sigma-missing",
				{ call: "sigmaIsAbsolute" },
				"sigmaIsAbsolute without errors of y",
				"sigmaY or covarianceY beside it",
				"Give sigmaY, or leave sigmaIsAbsolute out.",
			),
		);
	if (data.sigmaY !== undefined && data.covarianceY !== undefined)
		problems.push(
			problem(
				"two-error-statements",
				{ column: "sigmaY" },
				"both sigmaY and covarianceY",
				"one of them",
				"The covariance holds the sigmas on its diagonal; leave sigmaY out.",
			),
		);
	return problems;
}

function readSigma(
	given: number | ArrayLike<number>,
	points: number,
	problems: Problem[],
): Float64Array {
	const sigma = new Float64Array(points);
	if (typeof given === "number") sigma.fill(given);
	else if (given.length === points) sigma.set(Array.from(given));
	else
		problems.push(
			problem(
				"unequal-lengths",
				{ column: "sigmaY" },
				`${given.length} values`,
				`one number, or ${points}, one for each y`,
				"Give every point its sigma.",
			),
		);
	const wrong = sigma.findIndex((s) => !(s > 0 && s < Infinity));
	if (wrong >= 0)
		problems.push(
			problem(
				"sigma-not-positive",
				{ column: "sigmaY", row: wrong + 1 },
				String(sigma[wrong]),
				"a finite number above 0",
				"A point without error would fix the curve; give the error of its reading.",
			),
		);
	return sigma;
}

function readCovariance(
	rows: readonly ArrayLike<number>[],
	points: number,
	problems: Problem[],
): Whitening {
	const matrix = new Float64Array(points * points);
	if (rows.length !== points || rows.some((r) => r.length !== points)) {
		problems.push(
			problem(
				"covariance-shape",
				{ column: "covarianceY" },
				`${rows.length} rows of ${rows.map((r) => r.length).join(", ")} numbers`,
				`${points} rows of ${points}`,
				"Give one row and one column for each point.",
			),
		);
		return { kind: "none" };
	}
	rows.forEach((row, i) => {
		for (let j = 0; j < points; j++) matrix[i * points + j] = row[j];
	});
	for (let i = 0; i < points; i++)
		for (let j = 0; j < i; j++) {
			const a = matrix[i * points + j];
			const b = matrix[j * points + i];
			if (!(Math.abs(a - b) <= 1e-9 * (Math.abs(a) + Math.abs(b)))) {
				problems.push(
					problem(
						"covariance-not-symmetric",
						{ column: "covarianceY", row: i + 1 },
						`${a} in row ${i + 1}, column ${j + 1} but ${b} in row ${j + 1}, column ${i + 1}`,
						"a symmetric matrix",
						"The covariance of two points has no order.",
					),
				);
				return { kind: "none" };
			}
		}
	const result = choleskyFactor(rowsOf(matrix, points, points));
	if (result.is === "not positive definite") {
		problems.push(
			problem(
				"covariance-not-positive-definite",
				{ column: "covarianceY", row: result.row + 1 },
				`point ${result.row + 1} fully determined by the points before it`,
				"a positive definite matrix",
				"Add each point's own independent error to the diagonal.",
			),
		);
		return { kind: "none" };
	}
	const sigma = Float64Array.from({ length: points }, (_, i) =>
		Math.sqrt(matrix[i * points + i]),
	);
	const factor = new Float64Array(points * points);
	result.factor.forEach((row, i) => {
		factor.set(row, i * points);
	});
	return { kind: "covariance", factor, sigma };
}

function limits(
	model: Model,
	given: Readonly<Record<string, number>>,
	side: "lower" | "upper",
): Float64Array {
	return Float64Array.from(model.parameters, (p) => given[p.name] ?? p[side]);
}

/** What is wrong with single start values, fixed values and limits. */
function valueProblems(options: FitOptions): Problem[] {
	const check = (
		option: "start" | "fixed" | "lower" | "upper",
		isValue: (value: number) => boolean,
		expected: string,
	): Problem[] =>
		Object.entries(options[option] ?? {})
			.filter(([, value]) => !(typeof value === "number" && isValue(value)))
			.map(([name, value]) =>
				problem(
					"option-out-of-range",
					{ call: `${option}: ${name}` },
					String(value),
					expected,
					"Leave it out for the usual value.",
				),
			);
	return [
		...check("start", Number.isFinite, "a finite number"),
		...check("fixed", Number.isFinite, "a finite number"),
		...check("lower", (v) => !Number.isNaN(v), "a number"),
		...check("upper", (v) => !Number.isNaN(v), "a number"),
	];
}

function startProblems(
	model: Model,
	start: Float64Array,
	lower: Float64Array,
	upper: Float64Array,
	structure: Structure,
	given: Readonly<Record<string, number>>,
	free: readonly number[],
): Problem[] {
	const problems: Problem[] = [];
	model.parameters.forEach(({ name }, j) => {
		if (lower[j] >= upper[j])
			problems.push(
				problem(
					"limits-crossed",
					{ column: name },
					`lower ${lower[j]} and upper ${upper[j]}`,
					"a lower limit below the upper one",
					"To hold a parameter at a value, name it in `fixed`.",
				),
			);
		else if (free.includes(j) && (start[j] < lower[j] || start[j] > upper[j]))
			problems.push(
				problem(
					"start-outside-limits",
					{ column: name },
					`start ${start[j]}`,
					`a value ${rangeInWords(lower[j], upper[j])}`,
					"Move the start or the limit.",
				),
			);
	});
	if (model.start.kind === "must be given")
		for (const j of structure.nonlinear) {
			const { name } = model.parameters[j];
			if (!(name in given))
				problems.push(
					problem(
						"start-missing",
						{ column: name },
						"no start value",
						"one for every parameter in which the curve is not linear",
						`Give start: { ${name}: ... }; the right order of magnitude will do.`,
					),
				);
		}
	return problems;
}

function rangeInWords(lower: number, upper: number): string {
	if (lower === Number.NEGATIVE_INFINITY) return `of at most ${upper}`;
	if (upper === Number.POSITIVE_INFINITY) return `of at least ${lower}`;
	return `from ${lower} to ${upper}`;
}
