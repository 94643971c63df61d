import {
	balanceLadder,
	budgetBars,
	differences,
	type FigureDescription,
	flasksAgainstControl,
	residueAndUptake,
} from "../../kernel-lib/figures/index";
import {
	budgetRows,
	comparison,
	deviations,
	hostileComparison,
	hostileUptakes,
	isotherm,
	logarithmic,
	uprightBars,
	uptakes,
} from "./fixtures";

/** Every figure once, from invented data, under a short name: what the gallery shows and what the tests go through. */
export function sampleFigures(): Map<string, FigureDescription> {
	return new Map<string, FigureDescription>([
		[
			"flasks-against-control",
			flasksAgainstControl(uptakes, comparison, deviations),
		],
		["differences", differences(comparison)],
		["balance-ladder", balanceLadder(uptakes)],
		["residue-and-uptake", residueAndUptake(uptakes, deviations)],
		[
			"uncertainty-budget",
			budgetBars(
				budgetRows,
				"Uptake of flask 4: where its uncertainty comes from",
			),
		],
		[
			"hostile-flasks",
			flasksAgainstControl(hostileUptakes, hostileComparison, []),
		],
		["hostile-differences", differences(hostileComparison)],
		["hostile-ladder", balanceLadder(hostileUptakes)],
		["hostile-residue", residueAndUptake(hostileUptakes)],
		["isotherm", isotherm],
		["logarithmic", logarithmic],
		["upright-bars", uprightBars],
	]);
}
