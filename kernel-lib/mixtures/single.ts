import type { IsothermFit } from "../isotherms";
import {
	type Isotherm,
	langmuir,
	molarMassOf,
	molarMassProblems,
	requireFit,
	uptakeAt,
} from "../isotherms";
import {
	anyNumberOption,
	objectOption,
	optionProblems,
	type Problem,
	problem,
	quoted,
	requireArgument,
	requireList,
	textOption,
	throwProblems,
	wordOption,
} from "../quantity";

/** One solute as it behaves alone. */
export interface Single {
	readonly isotherm: Isotherm;
	readonly theta: Float64Array;
	/** g/mol: solutes share the char by molecules, not by milligrams. */
	readonly molarMass: number;
}

/** One solute of a water, with its isotherm measured alone. */
export interface Solute {
	readonly name: string;
	readonly fit: IsothermFit;
	/** g/mol; if not given, or 0, that of the probe of its points, where it is a substance that the library knows. */
	readonly molarMass?: number;
	/** mg/L in the water as it comes. */
	readonly start: number;
}

/** A solute whose molar mass is there. */
export interface WeighedSolute extends Solute {
	readonly molarMass: number;
}

/**
 * How two solutes share a char. "ideal adsorbed solution": from any isotherms, at equal spreading pressure (Myers and Prausnitz 1965, AIChE J. 11, 121; for solutions Radke and Prausnitz 1972, AIChE J. 18, 761; from memory).
 * "competitive Langmuir": both for the same sites (Butler and Ockrent 1930, J. Phys. Chem. 34, 2841; from memory); both isotherms must be Langmuir's.
 */
export type Rule = "ideal adsorbed solution" | "competitive Langmuir";

/** Uptake in mmol/g. */
export function molarUptake(s: Single, concentration: number): number {
	return uptakeAt(s.isotherm, s.theta, concentration) / s.molarMass;
}

const soluteRules = {
	name: textOption,
	fit: objectOption("an isotherm fitted to flasks of this solute alone"),
	molarMass: anyNumberOption("a number in g/mol"),
	start: anyNumberOption("a number in mg/L"),
};

/** What keeps solutes from making a mixture, whatever each is by itself. */
function togetherProblems(solutes: readonly WeighedSolute[]): Problem[] {
	const names = solutes.map((s) => s.name);
	return [
		...(solutes.length >= 2
			? []
			: [
					problem(
						"one-solute-only",
						{},
						`${solutes.length} solute`,
						"two solutes, each with its isotherm measured alone",
						"For one solute ask for its dose directly.",
					),
				]),
		...(new Set(names).size === names.length
			? []
			: [
					problem(
						"repeated-name",
						{},
						`the names ${names.map(quoted).join(", ")}`,
						"each solute once",
						"Rename one of them.",
					),
				]),
	];
}

function positiveProblems(
	solute: WeighedSolute,
	what: "molarMass" | "start",
): Problem[] {
	const value = solute[what];
	return Number.isFinite(value) && value > 0
		? []
		: [
				problem(
					"not-positive",
					{},
					`${what === "start" ? "a start" : "a molar mass"}${Number.isFinite(value) ? ` of ${value}` : " that is no number"} for ${quoted(solute.name)}`,
					what === "start" ? "mg/L above 0" : "g/mol above 0",
					"Give what is in the water, and the molar mass of it.",
				),
			];
}

function notLangmuir({ name, fit }: WeighedSolute): Problem[] {
	return fit.isotherm.name === langmuir.name
		? []
		: [
				problem(
					"not-langmuir",
					{},
					`${fit.isotherm.name}'s isotherm for ${quoted(name)}`,
					"Langmuir's for every solute",
					'Fit Langmuir, or take the rule "ideal adsorbed solution", which works with any isotherm.',
				),
			];
}

/**
 * The solutes with their molar masses.
 *
 * @throws ProblemError for fewer than two solutes, the same name twice, numbers that are not above zero, or other isotherms than Langmuir's under the competitive rule
 */
export function checkedSolutes(
	rule: Rule,
	given: readonly Solute[],
): WeighedSolute[] {
	requireArgument(
		rule,
		wordOption("ideal adsorbed solution", "competitive Langmuir"),
		"the rule of a mixture",
	);
	requireList(given, "a solute, such as { name, fit, start }", "a mixture");
	throwProblems(
		given.flatMap((s) =>
			optionProblems(s, soluteRules, "a solute", ["name", "fit", "start"]),
		),
	);
	for (const { name, fit } of given)
		requireFit(fit, `the solute ${quoted(name)}`);
	const solutes = given.map((s) => ({
		...s,
		molarMass: molarMassOf(s.fit.points, s.molarMass),
	}));
	throwProblems([
		...togetherProblems(solutes),
		...solutes.flatMap((s) => [
			...positiveProblems(s, "molarMass"),
			...positiveProblems(s, "start"),
		]),
		...given.flatMap((s) => molarMassProblems(s.fit.points, s.molarMass)),
		...(rule === "competitive Langmuir" ? solutes.flatMap(notLangmuir) : []),
	]);
	return solutes;
}
