import {
	foundText,
	type Problem,
	problem,
	refuse,
	throwProblems,
} from "../problem";
import type { Kind } from "./kinds";
import { didYouMean } from "./nearest-name";
import { jupyterDisplay, type Quantity } from "./quantity";

/** What an option may hold, in words, and whether a value is that. */
export interface OptionRule {
	readonly expected: string;
	accepts(value: unknown): boolean;
}

/** A quantity of one kind: `quantityOption("uptake")`. `how` tells how one is made, for the message. */
export function quantityOption(kind: Kind, how = ""): OptionRule {
	return {
		expected: `a quantity of the kind ${kind}${how === "" ? "" : `, such as ${how}`}`,
		accepts: (value) => isQuantity(value) && value.kind === kind,
	};
}

/** A quantity of any kind, for calls that check the kind in words of their own. */
export const anyQuantityOption: OptionRule = {
	expected:
		'a quantity, such as quantity.input("mass", 0.5, "g", quantity.normal(0.002))',
	accepts: (value) => isQuantity(value),
};

/** A number strictly between two limits. */
export function numberOption(above: number, below: number): OptionRule {
	return {
		expected:
			below === Number.POSITIVE_INFINITY
				? above === Number.NEGATIVE_INFINITY
					? "a number"
					: `a number above ${above}`
				: `a number above ${above} and below ${below}`,
		accepts: (value) =>
			typeof value === "number" &&
			Number.isFinite(value) &&
			value > above &&
			value < below,
	};
}

/** A number of any size, for calls that check the size in words of their own. */
export function anyNumberOption(what = "a number"): OptionRule {
	return {
		expected: what,
		accepts: (value) => typeof value === "number",
	};
}

/** A number of at least `least` and at most `most`. */
export function numberFromOption(
	least: number,
	most = Number.POSITIVE_INFINITY,
): OptionRule {
	return {
		expected:
			most === Number.POSITIVE_INFINITY
				? `a number of at least ${least}`
				: `a number from ${least} to ${most}`,
		accepts: (value) =>
			typeof value === "number" &&
			Number.isFinite(value) &&
			value >= least &&
			value <= most,
	};
}

/** One of several words. */
export function wordOption(...words: readonly string[]): OptionRule {
	return {
		expected: `one of ${words.map((w) => `"${w}"`).join(", ")}`,
		accepts: (value) => typeof value === "string" && words.includes(value),
	};
}

export const textOption: OptionRule = {
	expected: "a text",
	accepts: (value) => typeof value === "string",
};

export const yesNoOption: OptionRule = {
	expected: "true or false",
	accepts: (value) => typeof value === "boolean",
};

/** A whole number of at least `least`. */
export function countOption(least: number): OptionRule {
	return {
		expected: `a whole number of at least ${least}`,
		accepts: (value) => Number.isInteger(value) && (value as number) >= least,
	};
}

/** A list; each entry by its own rule. */
export function listOption(of: OptionRule): OptionRule {
	return {
		expected: `a list; each entry ${of.expected}`,
		accepts: (value) => Array.isArray(value) && value.every(of.accepts),
	};
}

/** Anything that one of the rules accepts. */
export function eitherOption(...rules: readonly OptionRule[]): OptionRule {
	return {
		expected: rules.map((r) => r.expected).join(", or "),
		accepts: (value) => rules.some((r) => r.accepts(value)),
	};
}

/** An object or a function that is checked elsewhere; `expected` says what it is. */
export function objectOption(expected: string): OptionRule {
	return {
		expected,
		accepts: (value) =>
			(typeof value === "object" && value !== null && !isQuantity(value)) ||
			typeof value === "function",
	};
}

/** A function; `expected` says of what. */
export function functionOption(expected: string): OptionRule {
	return { expected, accepts: (value) => typeof value === "function" };
}

function isQuantity(value: unknown): value is Quantity {
	return (
		typeof value === "object" &&
		value !== null &&
		jupyterDisplay in value &&
		"kind" in value &&
		"standardUncertainty" in value
	);
}

function shown(value: unknown): string {
	if (isQuantity(value)) return `a quantity of the kind ${value.kind}`;
	if (Array.isArray(value)) return `a list of ${value.length}`;
	if (typeof value === "function") return "a function";
	if (typeof value === "object" && value !== null) return "an object";
	return typeof value === "string"
		? `the text "${value}"`
		: typeof value === "number"
			? `the number ${value}`
			: `${value}`;
}

/** What is wrong with the options of a call: names that it does not have, values that an option cannot hold, and those that are `needed` and not given. A value of undefined counts as not given. */
export function optionProblems<
	Rules extends Readonly<Record<string, OptionRule>>,
>(
	options: object,
	rules: Rules,
	of: string,
	needed: readonly (keyof Rules & string)[] = [],
): Problem[] {
	if (
		typeof options !== "object" ||
		options === null ||
		Array.isArray(options) ||
		isQuantity(options)
	)
		return [
			problem(
				"options-not-an-object",
				{},
				`${shown(options)} as the options of ${of}`,
				`options in braces, such as { ${Object.keys(rules)[0] ?? ""}: ... }`,
				"Write the name of the option and its value in braces.",
			),
		];
	return [
		...needed
			.filter(
				(name) => (options as Record<string, unknown>)[name] === undefined,
			)
			.map((name) =>
				problem(
					"option-missing",
					{},
					`no "${name}" for ${of}`,
					`${name}: ${rules[name].expected}`,
					"Add it.",
				),
			),
		...Object.entries(options).flatMap(([name, value]) =>
			optionProblem(name, value, rules, of),
		),
	];
}

function optionProblem(
	name: string,
	value: unknown,
	rules: Readonly<Record<string, OptionRule>>,
	of: string,
): Problem[] {
	const rule = Object.hasOwn(rules, name) ? rules[name] : undefined;
	if (rule === undefined)
		return [
			problem(
				"option-unknown",
				{},
				`the option "${name}", which ${of} does not have`,
				"an option that it has",
				didYouMean(name, Object.keys(rules)),
			),
		];
	return value === undefined || rule.accepts(value)
		? []
		: [
				problem(
					"option-wrong",
					{},
					`${shown(value)} for the option "${name}" of ${of}`,
					rule.expected,
					"Change this value.",
				),
			];
}

/** @throws ProblemError for options that a call does not have or cannot take, and for those that are `needed` and not given, all at once */
export function requireOptions<
	Rules extends Readonly<Record<string, OptionRule>>,
>(
	options: object,
	rules: Rules,
	of: string,
	needed: readonly (keyof Rules & string)[] = [],
): void {
	throwProblems(optionProblems(options, rules, of, needed));
}

/**
 * The door of an argument that has its own place in a call, by the rule that an option would have.
 * @throws ProblemError for what the rule does not accept
 */
export function requireArgument(
	value: unknown,
	rule: OptionRule,
	of: string,
): void {
	if (!rule.accepts(value))
		refuse(
			"wrong-argument",
			of,
			isQuantity(value) ? shown(value) : foundText(value),
			rule.expected,
			"Give what is expected in this place.",
		);
}
