import { type Solution, step, type Trial } from "../bench";
import {
	expandedText,
	named,
	type Problem,
	ProblemError,
	problem,
	type Quantity,
	quoted,
	type Table,
	type TableCell,
	table,
	throwProblems,
} from "../quantity";
import { roleOf } from "../substances";
import { ageCaution, ageOf, type SolutionAge } from "./age";
import {
	type FoundConcentration,
	foundConcentration,
	nominalConcentration,
} from "./found-concentration";
import { isTitrimetric, normalityOf } from "./redox";
import { solutionNamed } from "./solution-named";
import { type Contradiction, strengthContradiction } from "./strength";

/** A solution of the trial whose concentration is known, with what to bear in mind about it. The concentration in mol/L is of I2 for iodine, of S2O3(2-) for thiosulfate, of IO3(-) for iodate. */
export interface Titrant extends FoundConcentration {
	readonly name: string;
	readonly substance: string;
	/** Day on which it was standardised, as the sheet says. */
	readonly standardisedOn: Solution["standardisedOn"];
	readonly age: SolutionAge;
	/** "" where its age is no concern. */
	readonly ageCaution: string;
	/** Why its strength, or that of a solution that it was standardised against, cannot be right, and the likely cause; no verdict is given on flasks that use it. */
	readonly contradiction: Contradiction;
	/** How strong it is, in one sentence with its 95 % interval, for the head of a page. */
	readonly sentence: string;
}

/** The solutions of a trial, without their table. */
export interface KnownTitrants {
	readonly all: readonly Titrant[];
	/** Solutions whose concentration cannot be worked out, and why; of no concern unless a flask uses one. */
	readonly unresolved: readonly {
		readonly name: string;
		readonly problems: readonly Problem[];
	}[];
	/** Concentration of a solution by its name (iodine as I2). Throws ProblemError where it is not known. */
	concentration(name: string): Quantity<"concentration">;
	/** Everything known of a solution by its name. Throws ProblemError where it is not known. */
	byName(name: string): Titrant;
}

/** The concentration of a solution, with those that it was standardised against. */
function titrantOf(
	trial: Trial,
	name: string,
	known: Map<string, Titrant>,
	chain: readonly string[] = [],
): Titrant {
	const before = known.get(name);
	if (before !== undefined) return before;
	const solution = solutionNamed(trial, name);
	if (chain.includes(name))
		throwProblems([
			problem(
				"standardisation-circle",
				solution.place,
				`a circle: ${[...chain, name].map(quoted).join(" against ")}`,
				"a chain that ends at a stated or weighed solution",
				"State or weigh one of them.",
			),
		]);
	const standards: Titrant[] = [];
	const standardNamed = (against: string): Titrant => {
		const standard = titrantOf(trial, against, known, [...chain, name]);
		standards.push(standard);
		return standard;
	};
	const found = foundConcentration(
		solution,
		standardNamed,
		trial.settings.endPoint,
	);
	const concentration = named(
		found.concentration.to("mol/L"),
		`c_{${name}}`,
		`concentration of ${quoted(name)}${roleOf(solution.substance) === "iodine" ? ", as I2" : ""}`,
	);
	const titrant: Titrant = {
		name,
		substance: solution.substance,
		...found,
		concentration,
		standardisedOn: solution.standardisedOn,
		age: ageOf(trial, solution),
		ageCaution: ageCaution(trial, solution),
		contradiction:
			standards.map((s) => s.contradiction).find((c) => c.found !== "") ??
			strengthContradiction(
				name,
				solution.substance,
				concentration,
				nominalConcentration(solution),
			),
		sentence: `${quoted(name)}: ${expandedText(concentration)}, 95 % interval in brackets.`,
	};
	known.set(name, titrant);
	return titrant;
}

function allOf(trial: Trial): KnownTitrants {
	const known = new Map<string, Titrant>();
	const failed = new Map<string, readonly Problem[]>();
	for (const { name } of trial.solutions) {
		try {
			titrantOf(trial, name, known);
		} catch (error) {
			if (!(error instanceof ProblemError)) throw error;
			failed.set(name, error.problems);
		}
	}
	const byName = (name: string): Titrant => {
		throwProblems(failed.get(name) ?? []);
		return titrantOf(trial, name, known);
	};
	const all = trial.solutions.flatMap((s) => known.get(s.name) ?? []);
	return {
		all,
		unresolved: [...failed].map(([name, problems]) => ({ name, problems })),
		concentration: (name) => byName(name).concentration,
		byName,
	};
}

/** The solutions of a trial, computed once. */
export const titrantsOf: (trial: Trial) => KnownTitrants = step(allOf);

export function titrantTable({ all, unresolved }: KnownTitrants): Table {
	const notes = all.flatMap((t) =>
		[
			t.contradiction.found,
			t.contradiction.likelyCause,
			t.outlierAdvice,
			t.ageCaution,
			...t.assumptions,
		].filter((text) => text !== ""),
	);
	return table(
		"Solutions",
		[
			"solution",
			"substance",
			"concentration (mol/L)",
			"as normality (N)",
			"how it is known",
		],
		[
			...all.map((t): TableCell[] => [
				t.name,
				t.substance,
				t.concentration,
				isTitrimetric(t.substance)
					? normalityOf(t.concentration, t.substance)
					: "",
				t.how,
			]),
			...unresolved.map(({ name, problems }): TableCell[] => [
				name,
				"",
				"not known",
				"",
				problems.map((p) => `found ${p.found}`).join("; "),
			]),
		],
		[...new Set(notes)],
	);
}
