import { foundName, type Problem, problem, throwProblems } from "../problem";
import { type Evidence, type InputDescription, input, stated } from "./input";
import { baseUnits, type Kind, kindText } from "./kinds";
import { didYouMean } from "./nearest-name";
import {
	eitherOption,
	type OptionRule,
	objectOption,
	optionProblems,
	textOption,
	wordOption,
} from "./options";
import type { Quantity } from "./quantity";
import type { Scope, Source } from "./source";
import { type UnitOf, units } from "./units";

/** What is said about a number that is typed into a cell. */
export interface TypedDescription {
	/** Symbol for formulas, e.g. "V_{end}". */
	readonly symbol: string;
	/** What it is, in words. */
	readonly meaning: string;
	/** Where the number comes from, in words: "label of the bottle", "certificate". Together with a symbol it identifies a shared number: met again, it is the same error. */
	readonly source: string | Source;
	/** "reading" where the error belongs to one reading alone; "shared", the default, where several results lean on it. */
	readonly scope: Scope;
}

/** What a description may hold, for calls that take one. */
export const typedRules: Readonly<Record<keyof TypedDescription, OptionRule>> =
	{
		symbol: textOption,
		meaning: textOption,
		source: eitherOption(
			textOption,
			objectOption("a source that was read from a sheet"),
		),
		scope: wordOption("reading", "shared"),
	};

function isEvidence(value: unknown): value is Evidence {
	return (
		typeof value === "object" &&
		value !== null &&
		"standardUncertainty" in value &&
		"distribution" in value &&
		!("kind" in value)
	);
}

function unitProblems(kind: string, unit: unknown): Problem[] {
	const known = Object.hasOwn(units, kind)
		? Object.keys(units[kind as Kind])
		: [];
	return typeof unit === "string" && known.includes(unit)
		? []
		: [
				problem(
					"unit-unknown",
					{ column: "input" },
					`${foundName("the unit", unit)} for ${kindText(kind)}`,
					`one of ${known.join(", ")}`,
					didYouMean(unit, known),
				),
			];
}

function problemsOf(
	kind: string,
	value: unknown,
	unit: unknown,
	evidence: unknown,
): Problem[] {
	const at = { column: "input" };
	const kinds = Object.keys(baseUnits);
	return [
		...(kinds.includes(kind)
			? unitProblems(kind, unit)
			: [
					problem(
						"kind-unknown",
						at,
						foundName("the kind", kind),
						`one of ${kinds.join(", ")}`,
						didYouMean(kind, kinds),
					),
				]),
		...(typeof value === "number" && Number.isFinite(value)
			? []
			: [
					problem(
						"value-not-finite",
						at,
						foundName("the value", value),
						"a finite number",
						"Change this value.",
					),
				]),
		...(isEvidence(evidence)
			? []
			: [
					problem(
						"evidence-missing",
						at,
						typeof evidence === "number"
							? `the bare number ${evidence} where it is to be said how uncertain the value is`
							: "nothing that says how uncertain the value is",
						"quantity.normal(u), quantity.rectangular(a), quantity.triangular(a), quantity.certificate(U) or quantity.exact",
						typeof evidence === "number"
							? `Write quantity.normal(${evidence}) for a standard uncertainty, quantity.rectangular(${evidence}) for a tolerance.`
							: "Add one of these after the unit.",
					),
				]),
	];
}

/** A description with its source as the trace keeps it. */
export function described({
	source,
	...rest
}: Partial<TypedDescription>): Partial<InputDescription> {
	return source === undefined
		? rest
		: { ...rest, source: typeof source === "string" ? stated(source) : source };
}

/**
 * A number that was read or stated, with its unit and with what is known of its error: the beginning of every calculation typed into a cell. Two numbers typed in without a source and
 * a symbol are two independent inputs, even when they look alike; so are two readings.
 *
 * @param kind "mass", "volume", "amount", "concentration", "normality", "massConcentration", "density", "molarMass", "uptake", "ratio", "temperature", "time", "pH", "conductivity" and others
 * @param value in `unit`
 * @param unit a unit of the kind, such as "g", "mL", "mol/L", "mg/L", "mg/g", "%"
 * @param evidence how uncertain the value is, in the same unit: normal(u), rectangular(a), triangular(a), certificate(U), or exact
 * @throws ProblemError for a kind, unit, value or description that cannot be, all at once
 * @example
 * quantity.input("mass", 0.5, "g", quantity.normal(0.002), { symbol: "m", meaning: "dry char" }) // => "0.5000 g (u 0.0020 g)"
 * quantity.input("volume", 25, "mL", quantity.exact).in("L") // => 0.025
 */
export function typedInput<K extends Kind>(
	kind: K,
	value: number,
	unit: UnitOf<K>,
	evidence: Evidence,
	description: Partial<TypedDescription> = {},
): Quantity<K> {
	throwProblems([
		...problemsOf(kind, value, unit, evidence),
		...optionProblems(description, typedRules, "input"),
	]);
	return input(
		kind,
		value,
		unit,
		evidence,
		described(description),
		description.scope === "reading",
	);
}
