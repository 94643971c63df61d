import { firingsInUse, step, type Trial } from "../bench";
import { type Table, withTable } from "../quantity";
import { definitionTable } from "./definitions";
import { type FiringYields, firingYields } from "./firing-yields";
import { yieldTable } from "./yield-table";

/** The yields of a trial, shown as a table. */
export interface Yields extends ReadonlyArray<FiringYields> {
	/** A row a firing, whose notes say why a figure is missing. */
	readonly table: Table;
	/** The definitions that yields, burn-off and ratios follow, each with its source. */
	readonly definitions: Table;
}

const yieldsOf = step(
	(trial: Trial): Yields =>
		withTable(
			withTable(firingsInUse(trial).map(firingYields), (list) =>
				yieldTable(list, trial),
			),
			definitionTable,
			"definitions",
		),
);

/**
 * Yields, burn-off, impregnation ratios and the agent found again of every firing, all per dry mass as `definitions` says. Each is a value with its working, a limit, or the reason why there is none. Firings that a
 * deviation leaves out are not among them. Shown as a table, a row a firing, whose notes say why a figure is missing.
 * @throws ProblemError where the trial has no firing
 * @example
 * const typed = bench.trialFromRows({ activation: [{ firing: "k1", "precursor mass (g)": 100, "fired mass (g)": 28 }] });
 * const [k1] = activation.yields(typed);
 * k1.charYield.is === "value" ? k1.charYield.quantity.in("%") : 0 // => 28
 * activation.yields(kilnTrial).definitions.rows[3][0] // => "burn-off"
 */
export function yields(trial: Trial): Yields {
	return yieldsOf(trial);
}
