import type { IsothermFit } from "../isotherms";
import { requireFit } from "../isotherms";
import { requireList, type WithTable, withTable } from "../quantity";
import { type DoseAnswer, doseForTarget } from "./dose-for-target";
import { doseTable } from "./dose-table";
import type { DoseQuestion } from "./question";

/**
 * Every combination of starts, targets and plans: the scenarios of a person who does not yet know what will be asked. Shown as a table, a row each.
 * @example
 * const points = isotherms.plainPoints("oak char", [10, 30, 90, 190], [50, 75, 90, 95]);
 * const fit = isotherms.fitIsotherm(isotherms.langmuir, points);
 * dose.scenarios(fit, [100, 200], [10, 20, 30]).length // => 6
 */
export function scenarios(
	fit: IsothermFit,
	starts: readonly DoseQuestion["start"][],
	targets: readonly number[],
	plans: readonly Pick<DoseQuestion, "stages" | "scheme" | "beyond">[] = [{}],
): WithTable<readonly DoseAnswer[]> {
	requireFit(fit, "dose.scenarios");
	requireList(starts, "a concentration in mg/L", "dose.scenarios");
	requireList(targets, "a residue in mg/L", "dose.scenarios");
	requireList(plans, "a plan, such as { stages: 2 }", "dose.scenarios");
	const answers = starts.flatMap((start) =>
		targets.flatMap((target) =>
			plans.map((plan) => doseForTarget(fit, { ...plan, start, target })),
		),
	);
	return withTable(answers, doseTable);
}
