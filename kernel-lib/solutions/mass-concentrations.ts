import { type Solution, type SolutionBasis, step, type Trial } from "../bench";
import {
	massConcentrationOf,
	named,
	ProblemError,
	per,
	problem,
	type Quantity,
	quoted,
	type Table,
	table,
	times,
} from "../quantity";
import { molarMassOf, weighingNoteOf } from "./molar-mass-of";
import { isTitrimetric } from "./redox";
import { solutionNamed } from "./solution-named";
import { titrantsOf } from "./titrants";

/** The solutions of a trial in grams per litre: what flasks that are read by an instrument are dosed with. */
export interface MassConcentrations {
	/** Throws ProblemError where it is not known. */
	of(name: string): Quantity<"massConcentration">;
	readonly table: Table;
}

function inMass(
	trial: Trial,
	solution: Solution,
): Quantity<"massConcentration"> {
	const { basis, substance, name, place } = solution;
	if (isTitrimetric(substance) || basis.is === "standardised")
		return times(
			titrantsOf(trial).concentration(name),
			molarMassOf(substance, place),
		);
	if (basis.is === "weighed")
		return per(times(basis.mass, basis.purity), basis.volume);
	const stated = basis.concentration;
	switch (stated.as) {
		case "mass concentration":
			return stated.quantity;
		case "concentration":
			return times(stated.quantity, molarMassOf(substance, place));
		case "mass fraction":
			return massConcentrationOf(stated.quantity, stated.density);
		case "normality":
			throw new ProblemError([
				problem(
					"normality-of-dye",
					place,
					`a normality for ${substance}`,
					"mg/L, g/L or mol/L",
					"A normality needs a reaction; give the concentration in mg/L.",
				),
			]);
	}
}

function basisText(basis: SolutionBasis): string {
	switch (basis.is) {
		case "stated":
			return "stated";
		case "weighed":
			return `${basis.mass} in ${basis.volume}`;
		case "standardised":
			return `standardised against ${quoted(basis.against)}`;
	}
}

/** Solutions that flasks read by an instrument were dosed with. */
function dosedToBeRead(trial: Trial): readonly Solution[] {
	const names = new Set(
		trial.flasks
			.filter((f) => f.readings.recorded)
			.flatMap((f) => f.events)
			.flatMap((e) => (e.is === "dose" ? [e.solution] : [])),
	);
	return trial.solutions.filter((s) => names.has(s.name));
}

function allOf(trial: Trial): MassConcentrations {
	const known = new Map<string, Quantity<"massConcentration">>();
	const of = (name: string): Quantity<"massConcentration"> => {
		const before = known.get(name);
		if (before !== undefined) return before;
		const solution = solutionNamed(trial, name);
		const made = named(
			inMass(trial, solution).to("mg/L"),
			`\\rho_{${name}}`,
			`${solution.substance} in the solution ${quoted(name)}`,
		);
		known.set(name, made);
		return made;
	};
	const dosed = dosedToBeRead(trial);
	return {
		of,
		table: table(
			"Solutions that were dosed",
			["solution", "substance", "strength (mg/L)", "how it is known"],
			dosed.map((s) => [s.name, s.substance, of(s.name), basisText(s.basis)]),
			dosed
				.map((s) => weighingNoteOf(s.substance))
				.filter((note) => note !== ""),
		),
	};
}

/**
 * Strengths of the solutions of a trial in mass per volume: as stated, as weighed and made up, or from their titration.
 * @throws ProblemError when a strength is asked for that the sheet does not give, such as a normality of a dye
 */
export const massConcentrations: (trial: Trial) => MassConcentrations =
	step(allOf);
