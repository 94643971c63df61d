import {
	halfDrop,
	inUse,
	type Solution,
	type StatedConcentration,
	type TitrationReading,
	type Trial,
} from "../bench";
import {
	expandedText,
	kept,
	massConcentrationOf,
	meanOf,
	meanOfReplicates,
	minus,
	named,
	type Problem,
	ProblemError,
	per,
	problem,
	type Quantity,
	type Table,
	type TableCell,
	table,
} from "../quantity";
import { roleOf } from "../substances";
import { ageCaution } from "./age";
import { molarMassOf, weighedFormula } from "./molar-mass-of";
import { outlierAdvice } from "./outlier";
import { isTitrimetric, molarityOf, normalityOf, titrimetric } from "./redox";
import {
	aliquotConcentration,
	titrantConcentration,
	weighedConcentration,
} from "./standardisation";
import { blankVolume, deliveredVolume, titreVolume } from "./titre";

/** A solution of the run whose concentration is known, with what to bear in mind about it. */
export interface Titrant {
	readonly name: string;
	readonly substance: string;
	/** mol/L: of I2 for iodine, of S2O3(2-) for thiosulfate, of IO3(-) for iodate. */
	readonly concentration: Quantity<"concentration">;
	/** How the concentration was found, in words. */
	readonly how: string;
	/** What an outlier test says of its replicate titres; "" where it has nothing to say. Nothing is ever left out because of it. */
	readonly outlierAdvice: string;
	/** "" where its age is no concern. */
	readonly ageCaution: string;
	/** What was assumed where the sheet is silent. */
	readonly assumptions: readonly string[];
	/** How strong it is, in one sentence with its 95 % interval, for the head of a page. */
	readonly sentence: string;
}

/** The solutions of a run. */
export interface Titrants {
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
	readonly table: Table;
}

type Found = Omit<Titrant, "name" | "substance" | "ageCaution" | "sentence">;

function fromStated(
	{ substance, place }: Solution,
	stated: StatedConcentration,
): Quantity<"concentration"> {
	switch (stated.as) {
		case "concentration":
			return stated.quantity;
		case "normality":
			return molarityOf(stated.quantity, substance);
		case "mass concentration":
			return per(stated.quantity, molarMassOf(substance, place));
		case "mass fraction":
			return per(
				massConcentrationOf(stated.quantity, stated.density),
				molarMassOf(substance, place),
			);
	}
}

/**
 * The concentrations of all solutions of a run: stated, weighed, or standardised against one another (iodine against thiosulfate against iodate), with every error carried
 * through. One or two titres keep their reading and end-point errors; from three on their scatter takes that place (never both). The blank titre is taken off. What two
 * solutions share (the burette, the standard) stays one and the same input, so that it cancels where it should.
 *
 * The burette holds thiosulfate: a thiosulfate row's aliquot is of the standard, any other row's aliquot is of that solution itself.
 */
export const concentrations: (trial: Trial) => Titrants = kept(solved);

function solved(trial: Trial): Titrants {
	const known = new Map<string, Titrant>();
	const failed = new Map<string, readonly Problem[]>();
	const rows = new Map(trial.solutions.map((s) => [s.name, s]));

	const solve = (name: string, chain: readonly string[]): Titrant => {
		const before = known.get(name);
		if (before !== undefined) return before;
		const solution = rows.get(name);
		if (solution === undefined)
			throw new ProblemError([
				problem(
					"solution-unknown",
					{ file: trial.file, sheet: "solutions" },
					`no solution "${name}"`,
					`one of ${[...rows.keys()].join(", ") || "none"}`,
					"Add it to the solutions or mend the name.",
				),
			]);
		if (chain.includes(name))
			throw new ProblemError([
				problem(
					"standardisation-circle",
					solution.place,
					`a circle: ${[...chain, name].join(" against ")}`,
					"a chain that ends at a stated or weighed solution",
					"State or weigh one of them.",
				),
			]);
		const found = find(solution, (other) => solve(other, [...chain, name]));
		const concentration = named(
			found.concentration.to("mol/L"),
			`c_{${name}}`,
			`concentration of ${name}${counts(solution.substance)}`,
		);
		const titrant: Titrant = {
			name,
			substance: solution.substance,
			...found,
			concentration,
			ageCaution: ageCaution(trial, solution),
			sentence: `${name}: ${expandedText(concentration)}, 95 % interval.`,
		};
		known.set(name, titrant);
		return titrant;
	};

	for (const { name } of trial.solutions) {
		try {
			solve(name, []);
		} catch (error) {
			if (!(error instanceof ProblemError)) throw error;
			failed.set(name, error.problems);
		}
	}
	const byName = (name: string): Titrant => {
		const problems = failed.get(name);
		if (problems !== undefined) throw new ProblemError(problems);
		return solve(name, []);
	};
	const all = trial.solutions.flatMap((s) => known.get(s.name) ?? []);
	return {
		all,
		unresolved: [...failed].map(([name, problems]) => ({ name, problems })),
		concentration: (name) => byName(name).concentration,
		byName,
		table: titrantTable(all, failed),
	};
}

function counts(substance: string): string {
	return roleOf(substance) === "iodine" ? ", as I2" : "";
}

function find(solution: Solution, other: (name: string) => Titrant): Found {
	const { basis } = solution;
	const assumptions: string[] = [];
	if (basis.is === "stated")
		return {
			concentration: fromStated(solution, basis.concentration),
			how: "stated",
			outlierAdvice: "",
			assumptions,
		};
	if (basis.is === "weighed") {
		const formula = weighedFormula(solution.substance, solution.place);
		return {
			concentration: weighedConcentration(
				formula,
				basis.mass,
				basis.purity,
				basis.volume,
			),
			how: `weighed as ${formula} and made up to volume`,
			outlierAdvice: "",
			assumptions,
		};
	}
	const against = other(basis.against);
	const titrations = inUse(basis.titrations);
	const titre = standardisationTitre(solution, titrations);
	const ownInBurette =
		roleOf(solution.substance) === "thiosulfate" ||
		roleOf(against.substance) !== "thiosulfate";
	const arguments_ = [basis.aliquot, titre] as const;
	return {
		concentration: ownInBurette
			? titrantConcentration(
					titrimetric(solution.substance, solution.place).substance.name,
					titrimetric(against.substance, solution.place).substance.name,
					against.concentration,
					...arguments_,
				)
			: aliquotConcentration(
					titrimetric(solution.substance, solution.place).substance.name,
					titrimetric(against.substance, solution.place).substance.name,
					against.concentration,
					...arguments_,
				),
		how: `standardised against ${basis.against}, ${titrations.length === 1 ? "one titration" : `${titrations.length} titrations`}`,
		outlierAdvice: outlierAdvice(
			titrations.map((t) => titreVolume(t).in("mL")),
			"mL",
			2 * halfDrop,
		),
		assumptions: basis.blankTitre.recorded
			? assumptions
			: [...assumptions, `No blank titre was taken off for ${solution.name}.`],
	};
}

/** Mean of the titres in use of a standardisation, less its blank. */
function standardisationTitre(
	solution: Solution,
	titrations: readonly TitrationReading[],
): Quantity<"volume"> {
	if (solution.basis.is !== "standardised")
		throw new Error(`${solution.name} was not standardised.`);
	if (titrations.length === 0)
		throw new ProblemError([
			problem(
				"no-titre-left",
				solution.place,
				`every titre of the standardisation of ${solution.name} left out by a deviation`,
				"at least one titre",
				"Keep one in the deviations table, titrate again, or state the concentration.",
			),
		]);
	const { blankTitre } = solution.basis;
	const mean =
		titrations.length < 3
			? meanOf(titrations.map(titreVolume))
			: meanOfReplicates(
					titrations.map(deliveredVolume),
					`titres of ${solution.name}`,
				);
	return named(
		blankTitre.recorded
			? minus(mean, blankVolume(blankTitre.value, solution.place))
			: mean,
		`V_{${solution.name}}`,
		`mean titre of the standardisation of ${solution.name}${blankTitre.recorded ? ", less the blank" : ""}`,
	);
}

function titrantTable(
	all: readonly Titrant[],
	failed: ReadonlyMap<string, readonly Problem[]>,
): Table {
	const notes = all.flatMap((t) =>
		[t.outlierAdvice, t.ageCaution, ...t.assumptions].filter(
			(text) => text !== "",
		),
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
			...[...failed].map(([name, problems]): TableCell[] => [
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
