import { firingsInUse, step, type Trial } from "../bench";
import { type WithTable, withTable } from "../quantity";
import { type FiringYields, firingYields } from "./firing-yields";
import { yieldTable } from "./yield-table";

const yieldsOf = step(
	(trial: Trial): WithTable<readonly FiringYields[]> =>
		withTable(firingsInUse(trial).map(firingYields), (list) =>
			yieldTable(list, trial),
		),
);

/**
 * Yields, burn-off, impregnation ratios and the agent found again of every firing, all per dry mass as `definitionTable` says. Each is a value with its working, a limit, or the reason why there is none. Firings that a
 * deviation leaves out are not among them. Shown as a table, a row a firing, whose notes say why a figure is missing.
 * @throws ProblemError where the trial has no firing
 * @example
 * const typed = bench.trialFromRows({ activation: [{ firing: "k1", "precursor mass (g)": 100, "fired mass (g)": 28 }] });
 * const [k1] = activation.yields(typed);
 * k1.charYield.is === "value" ? k1.charYield.quantity.in("%") : 0 // => 28
 */
export function yields(trial: Trial): WithTable<readonly FiringYields[]> {
	return yieldsOf(trial);
}
