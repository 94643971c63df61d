import {
	eitherOption,
	foundText,
	objectOption,
	type Problem,
	problem,
	type ResultKind,
	requireArgument,
	requireList,
	requireResult,
	textOption,
	throwProblems,
} from "../quantity";
import { unknownNames } from "./names";

/**
 * Fills `out` (one number per point) with the curve at these parameters.
 * `x` is what the model's `prepare` made of the data's x; without `prepare` it is x itself, one predictor column after the other.
 */
export type CurveOverArray = (
	parameters: Float64Array,
	x: Float64Array,
	out: Float64Array,
) => void;

/**
 * Fills `out` with the derivatives by every parameter, one column after the other: parameter j at point i is `out[j * points + i]`,
 * points being `out.length / parameters.length`.
 */
export type DerivativesOverArray = (
	parameters: Float64Array,
	x: Float64Array,
	out: Float64Array,
) => void;

export interface ModelParameter {
	readonly name: string;
	/** Unit as a person writes it; empty for a pure number. */
	readonly unit: string;
	/** Least value that makes sense; -Infinity for none. */
	readonly lower: number;
	/** Greatest value that makes sense; Infinity for none. */
	readonly upper: number;
}

/** Start values, one per parameter, from the data (y in plain units, x as prepared). */
export type StartFromData = (
	x: Float64Array,
	y: Float64Array,
	out: Float64Array,
) => void;

/** A curve y = f(x; parameters). Made by `defineModel`. */
export interface Model {
	readonly name: string;
	/** For people; empty if none was given. */
	readonly formula: string;
	readonly parameters: readonly ModelParameter[];
	/** Number of x columns. */
	readonly predictors: number;
	readonly evaluate: CurveOverArray;
	readonly derivatives:
		| { readonly kind: "given"; readonly fill: DerivativesOverArray }
		| { readonly kind: "numerical" };
	/** Where the start values come from when the caller gives none. */
	readonly start:
		| { readonly kind: "from data"; readonly guess: StartFromData }
		| { readonly kind: "must be given" };
	readonly prepare: (x: Float64Array) => Float64Array;
	/** Known to be linear in none of its parameters. */
	readonly noneLinear: boolean;
}

/** What `defineModel` accepts. Either `curve`, for one x at a time, or `evaluate`, over whole arrays, is needed. */
export interface ModelDefinition {
	readonly name: string;
	readonly formula?: string;
	/** Names, or names with unit and limits. */
	readonly parameters: readonly (
		| string
		| {
				readonly name: string;
				readonly unit?: string;
				readonly lower?: number;
				readonly upper?: number;
		  }
	)[];
	/** The curve at one x, parameters in the order of `parameters`. */
	readonly curve?: (x: number, ...parameters: number[]) => number;
	readonly evaluate?: CurveOverArray;
	/** Left out, derivatives are taken numerically. */
	readonly derivatives?: DerivativesOverArray;
	readonly predictors?: number;
	readonly start?: StartFromData;
	/** Work on x that need not be repeated at every step, such as its logarithm. Done once per data set. */
	readonly prepare?: (x: Float64Array) => Float64Array;
	/**
	 * true where the curve is known to be linear in none of its parameters: then a fit does not try to find such, which takes half the time of a small one. Left out,
	 * it is found by trying.
	 */
	readonly noneLinear?: boolean;
}

const definitionKeys: readonly string[] = [
	"name",
	"formula",
	"parameters",
	"curve",
	"evaluate",
	"derivatives",
	"predictors",
	"start",
	"prepare",
	"noneLinear",
];

/**
 * Makes a model, a curve y = f(x; parameters), from its definition.
 * @throws ProblemError for everything that is wrong with the definition, all at once
 * @example
 * const decay = fit.defineModel({ name: "decay", parameters: ["a", "k"], curve: (t, a, k) => a * Math.exp(-k * t) });
 * decay.parameters.map((p) => p.name) // => ["a", "k"]
 */
export function defineModel(definition: ModelDefinition): Model {
	throwProblems(definitionProblems(definition));
	const parameters = definition.parameters.map((p) =>
		typeof p === "string"
			? { name: p, unit: "", lower: -Infinity, upper: Infinity }
			: {
					name: p.name,
					unit: p.unit ?? "",
					lower: p.lower ?? -Infinity,
					upper: p.upper ?? Infinity,
				},
	);
	const evaluate =
		definition.evaluate ?? overArray(definition.curve as Pointwise);
	return {
		name: definition.name,
		formula: definition.formula ?? "",
		parameters,
		predictors: definition.predictors ?? 1,
		evaluate,
		derivatives: definition.derivatives
			? { kind: "given", fill: definition.derivatives }
			: { kind: "numerical" },
		start: definition.start
			? { kind: "from data", guess: definition.start }
			: { kind: "must be given" },
		prepare: definition.prepare ?? ((x) => x),
		noneLinear: definition.noneLinear ?? false,
	};
}

type Pointwise = (x: number, ...parameters: number[]) => number;

function overArray(curve: Pointwise): CurveOverArray {
	return (p, x, out) => {
		// The common cases without spreading: spreading allocates.
		switch (p.length) {
			case 1:
				for (let i = 0; i < out.length; i++) out[i] = curve(x[i], p[0]);
				break;
			case 2:
				for (let i = 0; i < out.length; i++) out[i] = curve(x[i], p[0], p[1]);
				break;
			case 3:
				for (let i = 0; i < out.length; i++)
					out[i] = curve(x[i], p[0], p[1], p[2]);
				break;
			case 4:
				for (let i = 0; i < out.length; i++)
					out[i] = curve(x[i], p[0], p[1], p[2], p[3]);
				break;
			default:
				for (let i = 0; i < out.length; i++) out[i] = curve(x[i], ...p);
		}
	};
}

const definitionKind: ResultKind = {
	parts: ["name", "parameters"],
	expected:
		'a definition, such as { name: "decay", parameters: ["a", "k"], curve: (t, a, k) => a * Math.exp(-k * t) }',
};

const parameterRule = eitherOption(
	textOption,
	objectOption('an object such as { name: "a", lower: 0 }'),
);

/** Parts of a definition that are functions, where they are there. */
const functionKeys = [
	"curve",
	"evaluate",
	"derivatives",
	"start",
	"prepare",
] as const;

function definitionProblems(d: ModelDefinition): Problem[] {
	requireResult(d, definitionKind, "defineModel");
	const where = { call: `model "${d.name}"` };
	requireList(d.parameters, parameterRule.expected, where.call);
	for (const p of d.parameters) requireArgument(p, parameterRule, where.call);
	return [
		...unknownNames(d, definitionKeys, where.call),
		...notFunctions(d, where),
		...curveProblems(d, where),
		...nameProblems(d, where),
		...crossedLimits(d),
	];
}

type Place = { readonly call: string };

function notFunctions(d: ModelDefinition, where: Place): Problem[] {
	return functionKeys
		.filter((key) => d[key] !== undefined && typeof d[key] !== "function")
		.map((key) =>
			problem(
				"not-a-function",
				where,
				`${foundText(d[key])} for "${key}"`,
				"a function",
				"Write it with an arrow, such as (x, a, b) => a + b * x.",
			),
		);
}

/** A model has one curve; one for a single x cannot take several x columns. */
function curveProblems(d: ModelDefinition, where: Place): Problem[] {
	return [
		...(!d.curve === !d.evaluate
			? [
					problem(
						"model-needs-one-curve",
						where,
						d.curve ? "both curve and evaluate" : "neither curve nor evaluate",
						"exactly one of them",
						"Give curve: (x, a, b) => ... for one x at a time, or evaluate: (parameters, x, out) => ... over whole arrays.",
					),
				]
			: []),
		...(d.curve && (d.predictors ?? 1) !== 1
			? [
					problem(
						"model-needs-evaluate",
						where,
						`curve with ${d.predictors} predictors`,
						"evaluate, when there are several x columns",
						"Write the model with evaluate: (parameters, x, out) => ..., where x holds one column after the other.",
					),
				]
			: []),
	];
}

function nameProblems(d: ModelDefinition, where: Place): Problem[] {
	const names = d.parameters.map((p) => (typeof p === "string" ? p : p.name));
	if (names.length === 0)
		return [
			problem(
				"model-without-parameters",
				where,
				"no parameters",
				"at least one",
				'Name them: parameters: ["a", "b"].',
			),
		];
	const repeated = names.filter((n, i) => names.indexOf(n) !== i);
	return repeated.length === 0
		? []
		: [
				problem(
					"repeated-parameter-name",
					where,
					`the name ${repeated.map((n) => `"${n}"`).join(", ")} more than once`,
					"each parameter name once",
					"Rename one of them.",
				),
			];
}

function crossedLimits(d: ModelDefinition): Problem[] {
	return d.parameters.flatMap((p) =>
		typeof p === "string" || (p.lower ?? -Infinity) < (p.upper ?? Infinity)
			? []
			: [
					problem(
						"limits-crossed",
						{ call: `${d.name}: ${p.name}` },
						`lower ${p.lower} and upper ${p.upper}`,
						"a lower limit below the upper one",
						"Exchange or mend the limits.",
					),
				],
	);
}
