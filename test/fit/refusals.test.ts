import { describe, expect, test } from "vitest";
import {
	bootstrap,
	type CurveOverArray,
	defineModel,
	type FitData,
	type FitOptions,
	fit as fitCurve,
	fitMany,
	fitShared,
	jointRegion,
	predict,
	profileIntervals,
} from "../../kernel-lib/fit";
import { ProblemError, problemText } from "../../kernel-lib/quantity";
import { hyperbola, line } from "./fixtures";

const x = [1, 2, 3, 4, 5];
const y = [2.1, 3.9, 6.2, 7.8, 10.1];
const good = fitCurve(line, { x, y });

/** A call and the problems that it must end with: code, and a part of the sentence that a person reads. */
type Refusal = readonly [
	what: string,
	call: () => unknown,
	...problems: (readonly [code: string, says: string])[],
];

const fitWith =
	(data: object, options: object = {}, model = line) =>
	(): unknown =>
		fitCurve(model, data as FitData, options as FitOptions);

const define = (definition: object) => (): unknown =>
	defineModel({
		name: "m",
		parameters: ["a"],
		...definition,
	} as Parameters<typeof defineModel>[0]);

const evaluate: CurveOverArray = () => {};
const curve = (x: number, a: number): number => a * x;

const refusals: readonly Refusal[] = [
	// The points
	[
		"a mistyped key",
		fitWith({ x, y, sigmay: 1 }),
		["unknown-name", 'Did you mean "sigmaY"?'],
	],
	[
		"a mistyped y",
		fitWith({ x, Y: y }),
		["unknown-name", 'Did you mean "y"?'],
		["column-missing", "Give y: [...]"],
		["unequal-lengths", "5 values"],
		["too-few-points", "0 points for 2 free parameters"],
	],
	[
		"a start value of a parameter that the model does not have",
		fitWith({ x, y }, { start: { c: 1 } }),
		[
			"unknown-parameter",
			'start: found "c"; expected a parameter of the model',
		],
	],
	["no x", fitWith({ y }), ["column-missing", "found no x"]],
	[
		"x shorter than y",
		fitWith({ x: [1, 2], y }),
		["unequal-lengths", "found 2 values; expected 5, one for each point"],
	],
	[
		"a missing reading",
		fitWith({ x, y: [1, Number.NaN, 3, Infinity, 5] }),
		["not-a-number", 'row 2, column "y": found NaN; expected a finite number'],
		["not-a-number", "row 4"],
	],
	[
		"two columns for one predictor",
		fitWith({ x: [x, x], y }),
		["wrong-number-of-predictors", "found 2 columns of x; expected 1"],
	],
	[
		"too few points",
		fitWith({ x: [1], y: [2] }),
		["too-few-points", "1 points for 2 free parameters"],
	],
	// Their errors
	[
		"sigmas without their meaning",
		fitWith({ x, y, sigmaY: 1 }),
		[
			"sigma-meaning-not-said",
			"true (these are the real errors) or false (only their ratios are known)",
		],
	],
	[
		"a meaning without sigmas",
		fitWith({ x, y, sigmaIsAbsolute: true }),
		["sigma-missing", "Give sigmaY"],
	],
	[
		"a sigma of 0",
		fitWith({ x, y, sigmaY: [1, 1, 0, 1, 1], sigmaIsAbsolute: true }),
		["sigma-not-positive", "row 3"],
	],
	[
		"too few sigmas",
		fitWith({ x, y, sigmaY: [1, 1], sigmaIsAbsolute: true }),
		["unequal-lengths", "found 2 values; expected one number, or 5"],
		["sigma-not-positive", "found 0"],
	],
	[
		"sigmas and a covariance",
		fitWith({
			x: [1, 2, 3],
			y: [1, 2, 3],
			sigmaY: 1,
			covarianceY: [
				[1, 0, 0],
				[0, 1, 0],
				[0, 0, 1],
			],
			sigmaIsAbsolute: true,
		}),
		["two-error-statements", "leave sigmaY out"],
	],
	[
		"a covariance of the wrong shape",
		fitWith({
			x,
			y,
			covarianceY: [
				[1, 0],
				[0, 1],
			],
			sigmaIsAbsolute: true,
		}),
		["covariance-shape", "expected 5 rows of 5"],
	],
	[
		"a lopsided covariance",
		fitWith({
			x: [1, 2, 3],
			y: [1, 2, 3],
			covarianceY: [
				[1, 0.2, 0],
				[0.1, 1, 0],
				[0, 0, 1],
			],
			sigmaIsAbsolute: true,
		}),
		[
			"covariance-not-symmetric",
			"0.1 in row 2, column 1 but 0.2 in row 1, column 2",
		],
	],
	[
		"a covariance in which one point follows from another",
		fitWith({
			x: [1, 2, 3],
			y: [1, 2, 3],
			covarianceY: [
				[1, 1, 0],
				[1, 1, 0],
				[0, 0, 1],
			],
			sigmaIsAbsolute: true,
		}),
		[
			"covariance-not-positive-definite",
			"point 2 fully determined by the points before it",
		],
	],
	// The options
	[
		"a mistyped option",
		fitWith({ x, y }, { stat: { a: 1 } }),
		["option-unknown", 'Did you mean "start"?'],
	],
	[
		"an unknown parameter",
		fitWith({ x, y }, { fixed: { slope: 1 } }),
		["unknown-parameter", "a parameter of the model: a, b"],
	],
	[
		"everything fixed",
		fitWith({ x, y }, { fixed: { a: 1, b: 1 } }),
		["nothing-to-fit", "every parameter fixed"],
	],
	[
		"numbers out of range",
		fitWith(
			{ x, y },
			{
				confidence: 95,
				tolerance: 0,
				maxEvaluations: 0,
				seed: Number.NaN,
				start: { a: Number.NaN },
				lower: { b: Number.NaN },
			},
		),
		[
			"option-wrong",
			'found the number 95 for the option "confidence" of fit; expected a number above 0 and below 1',
		],
		["option-wrong", 'the number 0 for the option "tolerance"'],
		["option-wrong", "at least 1"],
		["option-wrong", "seed"],
		["option-out-of-range", "start: a"],
		["option-out-of-range", "lower: b"],
	],
	[
		"an unknown loss and search",
		fitWith({ x, y }, { loss: "huber", search: "yes" }),
		["option-wrong", '"squares", "Huber", "Cauchy"'],
		["option-wrong", '"auto", "always", "never"'],
	],
	[
		"limits the wrong way round",
		fitWith({ x, y }, { lower: { a: 3 }, upper: { a: 1 } }),
		["limits-crossed", "lower 3 and upper 1"],
	],
	[
		"a start outside its limits",
		fitWith({ x, y }, { start: { a: 9 }, upper: { a: 1 } }),
		["start-outside-limits", "found start 9; expected a value of at most 1"],
	],
	[
		"no start for a bent parameter",
		fitWith({ x, y }, {}, hyperbola),
		["start-missing", "Give start: { k: ... }"],
	],
	// Models
	[
		"a model without a curve",
		define({}),
		["model-needs-one-curve", "neither curve nor evaluate"],
	],
	[
		"a model with two",
		define({ curve, evaluate }),
		["model-needs-one-curve", "both curve and evaluate"],
	],
	[
		"a curve of two predictors",
		define({ curve, predictors: 2 }),
		["model-needs-evaluate", "one column after the other"],
	],
	[
		"a model without parameters",
		define({ parameters: [], evaluate }),
		["model-without-parameters", "Name them"],
	],
	[
		"a name used twice",
		define({ parameters: ["a", "a"], evaluate }),
		["repeated-parameter-name", '"a" more than once'],
	],
	[
		"a model with crossed limits",
		define({ parameters: [{ name: "a", lower: 1, upper: 0 }], evaluate }),
		["limits-crossed", "Exchange or mend"],
	],
	[
		"a mistyped part of a model",
		define({ evaluate, gradient: evaluate }),
		["unknown-name", 'found "gradient"'],
	],
	// Several data sets
	[
		"one data set for a shared fit",
		() => fitShared(line, [{ x, y, name: "one" }], { shared: ["b"] }),
		["too-few-data-sets", "For one data set use fit"],
	],
	[
		"data sets without names",
		() =>
			fitShared(
				line,
				[
					{ x, y },
					{ x, y },
				],
				{ shared: ["b"] },
			),
		["data-set-names", "a name for every data set"],
	],
	[
		"an unknown shared parameter",
		() =>
			fitShared(
				line,
				[
					{ x, y, name: "p" },
					{ x, y, name: "q" },
				],
				{ shared: ["c"] },
			),
		["unknown-parameter", "a, b"],
	],
	[
		"no list of shared parameters",
		() =>
			fitShared(
				line,
				[
					{ x, y, name: "p" },
					{ x, y, name: "q" },
				],
				{} as { shared: [] },
			),
		["shared-missing", 'Give shared: ["a"]'],
	],
	[
		"errors stated for one set only",
		() =>
			fitShared(
				line,
				[
					{ x, y, name: "p", sigmaY: 1, sigmaIsAbsolute: true },
					{ x, y, name: "q" },
				],
				{ shared: ["b"] },
			),
		["unlike-errors", "stated alike for all sets"],
	],
	[
		"one name in place of a list of shared parameters",
		() =>
			fitShared(
				line,
				[
					{ x, y, name: "p" },
					{ x, y, name: "q" },
				],
				{ shared: "b" } as object as { shared: [] },
			),
		["option-wrong", 'found the text "b" for the option "shared"'],
	],
	[
		"a mistyped option of many fits",
		() => fitMany(line, [{ x, y }], { onprogress: () => {} } as object),
		["option-unknown", 'Did you mean "onProgress"?'],
	],
	[
		"no data set for many fits",
		() => fitMany(line, []),
		["too-few-data-sets", "at least one"],
	],
	[
		"a missing reading among many fits",
		() =>
			fitMany(line, [
				{ x, y },
				{ x, y: [1, 2, Number.NaN, 4, 5] },
			]),
		["not-a-number", 'row 3, column "y of data set 2"'],
	],
	// What is done with a fit
	[
		"a mistyped option of the bootstrap",
		() => bootstrap(good, { resample: 10 } as object),
		["option-unknown", 'Did you mean "resamples"?'],
	],
	[
		"an unknown bootstrap",
		() =>
			bootstrap(good, {
				kind: "wild",
				interval: "bca",
				resamples: 10,
			} as object),
		["option-wrong", '"residual", "case", "parametric"'],
		["option-wrong", '"BCa", "percentile"'],
		["option-wrong", "100 to 1000000"],
	],
	[
		"cases drawn from correlated points",
		() =>
			bootstrap(
				fitCurve(line, {
					x,
					y,
					covarianceY: x.map((_, i) => x.map((__, j) => (i === j ? 2 : 1))),
					sigmaIsAbsolute: true,
				}),
				{ kind: "case" },
			),
		["case-bootstrap-of-correlated-points", "cannot be drawn one by one"],
	],
	[
		"a profile of no parameter",
		() => profileIntervals(good, { parameters: ["c"], rule: "f" } as object),
		["option-wrong", '"F", "likelihood ratio"'],
		["unknown-parameter", "a, b"],
	],
	[
		"a profile of a fixed parameter",
		() =>
			profileIntervals(fitCurve(line, { x, y }, { fixed: { a: 0 } }), {
				parameters: ["a"],
			}),
		["unknown-parameter", "a parameter of the model: b"],
	],
	[
		"a region of one parameter",
		() => jointRegion(good, "a", "a", { directions: 3 }),
		["option-wrong", "directions"],
		["same-parameter-twice", "two different free parameters"],
	],
	[
		"a prediction with the wrong x",
		() => predict(good, [[1], [2]]),
		["wrong-number-of-predictors", "found 2 columns"],
	],
	[
		"a prediction where x is missing",
		() => predict(good, [1, Number.NaN]),
		["not-a-number", "row 2"],
	],
	[
		"a prediction with a negative sigma",
		() => predict(good, [1], { sigmaNew: -1, level: 2 } as object),
		["option-unknown", 'the option "level", which predict does not have'],
		["option-wrong", "0 or more"],
	],
	[
		"a prediction where the curve ends",
		() =>
			predict(
				fitCurve(
					defineModel({
						name: "root",
						parameters: ["a"],
						curve: (v, a) => a * Math.sqrt(v),
					}),
					{ x, y },
				),
				[4, -1],
			),
		["curve-not-finite", "row 2"],
	],
];

describe("what cannot be fitted is refused in words, everything at once", () => {
	test.each(refusals.map((r) => [r[0], r] as const))(
		"%s",
		(_, [, call, ...expected]) => {
			let caught: unknown;
			try {
				call();
			} catch (error) {
				caught = error;
			}
			if (!(caught instanceof ProblemError))
				throw new Error(`no refusal, but ${String(caught)}`);
			const { problems } = caught;
			expect(problems.map((p) => p.code).sort()).toEqual(
				expected.map(([code]) => code).sort(),
			);
			for (const [code, says] of expected)
				expect(
					problems.some(
						(p) => p.code === code && problemText(p).includes(says),
					),
					`${code}: ${says}\n${caught.message}`,
				).toBe(true);
			for (const p of problems) {
				expect(problemText(p)).not.toMatch(/undefined|\[object/);
				expect(p.mend.length).toBeGreaterThan(10);
				expect(p.expected + p.mend).not.toMatch(/NaN|Infinity/);
			}
		},
	);
});
