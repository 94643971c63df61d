import { requireTrial, type Trial } from "../bench";
import type { Table } from "../quantity";
import { concentrations } from "./concentrations";
import { massConcentrations } from "./mass-concentrations";

/**
 * The solutions of a trial with their strength and how it is known: in mol/L and N where flasks were titrated, in mg/L where they were read by an instrument only.
 * @throws ProblemError for a dosed solution whose strength cannot be worked out
 * @example
 * solutions.solutionTable(trial).title // => "Solutions"
 */
export function solutionTable(trial: Trial): Table {
	requireTrial(trial);
	return trial.flasks.some((f) => f.titrations.length > 0)
		? concentrations(trial).table
		: massConcentrations(trial).table;
}
