import { stageBalances } from "../activation";
import { isLeftOut, requireTrial, type Trial } from "../bench";
import { cautionTexts } from "./hazards";
import { neverConcluded } from "./limits";

/** The usual cautions for charring, soaking, washing and drying as the firings name them, and for the solutions of a bench sheet. */
export function cautionsForActivation(trial: Trial): string[] {
	requireTrial(trial);
	const { firings } = trial;
	return cautionTexts([
		"char",
		"kiln",
		...trial.solutions.map((s) => s.substance),
		...(firings.some((r) => r.drying.length > 0) ? ["drying oven"] : []),
		...new Set(
			firings.flatMap((r) => [
				r.agent,
				r.precursor,
				...r.programme.map((s) => s.atmosphere),
			]),
		),
	]);
}

/** What may not be concluded from firings: where a balance is open, what washing and drying do not show, what one firing stands for, and what no such trial can show. */
export function notConcludedFromActivation(trial: Trial): string[] {
	requireTrial(trial);
	const inUse = trial.firings.filter((f) => !isLeftOut(f));
	const astray = inUse.flatMap((firing) =>
		stageBalances(firing).flatMap((s) =>
			s.is === "balance" &&
			s.verdict === "does not close" &&
			s.stage !== "whole firing"
				? [
						`The yield of ${firing.name} is not to be relied on: its ${s.stage} does not balance.`,
					]
				: [],
		),
	);
	return [
		...astray,
		"Each firing was done once: whether another firing under the same programme gives the same yield or uptake is not known from its flasks.",
		"A rinse that conducts like the water does not show that nothing is left in the char: pores give agent up late, and what is bound or hardly dissolves (zinc, phosphates) does not show in conductivity or pH at all.",
		"Dry here means that the mass no longer falls at the temperature of the oven used; water in fine pores may need more.",
		"Costs of a firing on the bench are not costs of production.",
		...neverConcluded,
	];
}
