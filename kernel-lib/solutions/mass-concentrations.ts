import type { Solution, Trial } from "../bench";
import {
	kept,
	massConcentrationOf,
	named,
	ProblemError,
	per,
	problem,
	type Quantity,
	type Table,
	table,
	times,
} from "../quantity";
import { concentrations } from "./concentrations";
import { molarMassOf, weighingNoteOf } from "./molar-mass-of";
import { isTitrimetric } from "./redox";

/** The solutions of a run in grams per litre: what flasks that are read by an instrument are dosed with. */
export interface MassConcentrations {
	/** Throws ProblemError where it is not known. */
	of(name: string): Quantity<"massConcentration">;
	readonly table: Table;
}

function inMass(
	trial: Trial,
	solution: Solution,
): Quantity<"massConcentration"> {
	const { basis, substance, name } = solution;
	if (isTitrimetric(substance) || basis.is === "standardised")
		return times(
			concentrations(trial).concentration(name),
			molarMassOf(substance),
		);
	if (basis.is === "weighed")
		return per(times(basis.mass, basis.purity), basis.volume);
	const stated = basis.concentration;
	switch (stated.as) {
		case "mass concentration":
			return stated.quantity;
		case "concentration":
			return times(stated.quantity, molarMassOf(substance));
		case "mass fraction":
			return massConcentrationOf(stated.quantity, stated.density);
		case "normality":
			throw new ProblemError([
				problem(
					"normality-of-dye",
					solution.place,
					`a normality for ${substance}`,
					"mg/L, g/L or mol/L",
					"A normality needs a reaction; give the concentration in mg/L.",
				),
			]);
	}
}

/** Strengths of the solutions of a run in mass per volume: as stated, as weighed and made up, or from their titration. */
export const massConcentrations: (trial: Trial) => MassConcentrations =
	kept(inMassOf);

function inMassOf(trial: Trial): MassConcentrations {
	const known = new Map<string, Quantity<"massConcentration">>();
	const of = (name: string): Quantity<"massConcentration"> => {
		const before = known.get(name);
		if (before !== undefined) return before;
		const solution = trial.solutions.find((s) => s.name === name);
		if (solution === undefined)
			throw new ProblemError([
				problem(
					"solution-unknown",
					{ file: trial.file, sheet: "solutions" },
					`no solution "${name}"`,
					`one of ${trial.solutions.map((s) => s.name).join(", ") || "none"}`,
					"Add it to the solutions or mend the name.",
				),
			]);
		const made = named(
			inMass(trial, solution).to("mg/L"),
			`\\rho_{${name}}`,
			`${solution.substance} in the solution ${name}`,
		);
		known.set(name, made);
		return made;
	};
	const dosed = trial.solutions.filter((s) =>
		trial.flasks.some(
			(f) =>
				f.readings.recorded &&
				f.events.some((e) => e.is === "dose" && e.solution === s.name),
		),
	);
	return {
		of,
		table: table(
			"Solutions that were dosed",
			["solution", "substance", "strength (mg/L)", "how it is known"],
			dosed.map((s) => [
				s.name,
				s.substance,
				of(s.name),
				s.basis.is === "stated"
					? "stated"
					: s.basis.is === "weighed"
						? `${s.basis.mass} in ${s.basis.volume}`
						: `standardised against ${s.basis.against}`,
			]),
			dosed.flatMap((s) => {
				const note = weighingNoteOf(s.substance);
				return note === "" ? [] : [note];
			}),
		),
	};
}
