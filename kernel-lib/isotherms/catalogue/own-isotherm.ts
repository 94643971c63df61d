import { defineModel } from "../../fit";
import {
	eitherOption,
	functionOption,
	listOption,
	numberOption,
	objectOption,
	problem,
	requireOptions,
	textOption,
	throwProblems,
} from "../../quantity";
import { type Isotherm, numericalSlope } from "./isotherm";

/** A curve of your own: uptake (mg/g) at a residual concentration C (mg/L). */
export interface OwnCurve {
	readonly name: string;
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
	/** q at one C, parameters in the order of `parameters`. */
	readonly curve: (concentration: number, ...parameters: number[]) => number;
	/** Start values in the order of `parameters`; the right order of magnitude will do. */
	readonly start: readonly number[];
	/** For people. */
	readonly equation?: string;
}

const ownRules = {
	name: textOption,
	parameters: listOption(
		eitherOption(
			textOption,
			objectOption('an object such as { name: "q_max", unit: "mg/g" }'),
		),
	),
	curve: functionOption("a function of the concentration and the parameters"),
	start: listOption(
		numberOption(Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY),
	),
	equation: textOption,
};

/**
 * Makes an isotherm of your own curve; everything that works on the catalogue works on it. Its derivatives and its slope are taken numerically.
 *
 * @throws ProblemError for a definition that is not complete
 * @example
 * const mine = isotherms.ownIsotherm({ name: "logarithm", parameters: ["a", "b"], start: [60, 0.01], curve: (c, a, b) => a * Math.log1p(b * c) });
 * mine.parameters.map((p) => p.name) // => ["a", "b"]
 */
export function ownIsotherm(own: OwnCurve): Isotherm {
	requireOptions(own, ownRules, "ownIsotherm", [
		"name",
		"parameters",
		"curve",
		"start",
	]);
	const { curve, start } = own;
	throwProblems(
		start.length === own.parameters.length
			? []
			: [
					problem(
						"start-values-missing",
						{ call: own.name },
						`${own.parameters.length} parameters and ${start.length} start values`,
						"a start value for each parameter",
						"Give them in the order of the parameters; the right order of magnitude will do.",
					),
				],
	);
	const model = defineModel({
		name: own.name,
		formula: own.equation ?? "",
		parameters: own.parameters,
		curve,
		start: (_x, _y, out) => out.set(start),
	});
	return {
		name: own.name,
		equation: own.equation ?? `${own.name}, as given`,
		latex: "",
		parameters: model.parameters.map((p) => ({
			name: p.name,
			latex: p.name,
			unit: p.unit,
			meaning: "as given",
		})),
		source: "given in the notebook",
		limits: "As far as its author says.",
		notFor: "Outside the measured range nothing vouches for it.",
		plateau: { is: "none" },
		highestConcentration: Number.POSITIVE_INFINITY,
		model,
		slope: (p, c) => numericalSlope((x) => curve(x, ...p), c),
	};
}
