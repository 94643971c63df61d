import { readTrial } from "../../kernel-lib/bench/index";
import { ladderOf } from "../../kernel-lib/figures/balance-ladder";
import {
	calibrationLine,
	charLots,
	course,
	differences,
	doseAndRemoval,
	doseForTarget,
	type FigureDescription,
	flasksAgainstControl,
	gramsOfChar,
	iodineNumberLine,
	isotherms,
	particleSizeCurves,
	straightLines,
	vanTHoffLine,
} from "../../kernel-lib/figures/index";
import { uptakesAtResidues } from "../../kernel-lib/figures/residue-and-uptake";
import { budgetBars } from "../../kernel-lib/figures/uncertainty-budget";
import { uptakesAgainstCondition } from "../../kernel-lib/figures/uptake-against-condition";
import { straightLines as linesOf } from "../../kernel-lib/isotherms/index";
import { readProperties } from "../../kernel-lib/properties/index";
import { table } from "../../kernel-lib/quantity/index";
import {
	dried,
	fired,
	washed,
	washedByPH,
	washedTwice,
	weighedTwice,
} from "./activation-fixtures";
import { bentLine, dyeLine, dyeTrial } from "./calibration-fixtures";
import {
	answers,
	background,
	counterCurrent,
	crossCurrent,
	doseFit,
	hillCurve,
	mixture,
	refusedDose,
	removal,
	removals,
	twoTemperatures,
	vanTHoff,
} from "./dose-fixtures";
import {
	budgetRows,
	comparison,
	hostile,
	hostileComparison,
	hostileUptakes,
	isotherm,
	logarithmic,
	repeats,
	touched,
	uprightBars,
	uptakes,
} from "./fixtures";
import {
	benchScale,
	freundlichFits,
	langmuirFits,
	numbers,
	treatments,
} from "./isotherm-fixtures";
import { fineSieving, sievings } from "./particle-size-fixtures";

const kiln = readTrial("data/demo-activation/kiln.csv");
const chars = readProperties("data/demo-properties/chars.csv");

/** Every figure once, from invented data, under a short name: what the gallery shows and what the tests go through. */
export function sampleFigures(): Map<string, FigureDescription> {
	return new Map<string, FigureDescription>([
		["flasks-against-control", flasksAgainstControl(comparison)],
		["differences", differences(comparison)],
		["balance-ladder", ladderOf(uptakes, "iodine", touched)],
		["residue-and-uptake", uptakesAtResidues(uptakes, "iodine")],
		[
			"uncertainty-budget",
			budgetBars(
				budgetRows,
				"Uptake of flask 4: where its uncertainty comes from",
			),
		],
		["hostile-flasks", flasksAgainstControl(hostileComparison)],
		["hostile-differences", differences(hostileComparison)],
		["hostile-ladder", ladderOf(hostileUptakes, hostile, new Set())],
		["hostile-residue", uptakesAtResidues(hostileUptakes, hostile)],
		["isotherms", isotherms(langmuirFits, { atResidue: 1000 })],
		[
			"isotherms-of-one-char",
			isotherms([langmuirFits[0], freundlichFits[0]], { balanceLines: true }),
		],
		["isotherms-on-log-axes", isotherms(freundlichFits, { scale: "log" })],
		["isotherm-residuals", isotherms(langmuirFits, { residuals: true })],
		[
			"isotherm-residuals-of-one-char",
			isotherms([freundlichFits[1]], { residuals: true }),
		],
		["grams-of-char", gramsOfChar(chars)],
		["char-lots", charLots(kiln)],
		["iodine-number-line", iodineNumberLine(numbers[0])],
		["bench-scale-line", iodineNumberLine(benchScale[0])],
		[
			"iodine-numbers-of-two",
			iodineNumberLine([
				numbers[0],
				{ ...benchScale[0], treatment: "on bench scale" },
			]),
		],
		[
			"iodine-number-not-available",
			iodineNumberLine({
				is: "not available",
				file: "char.csv",
				ammonia: "none named",
				notAsAsked: "",
				treatment: "cold under the lid",
				sentence: "",
				because:
					"2 of 3 dosages gave a point; a line with an error needs three",
				remarks: [],
				weighInstead: "",
				nextTrial: [],
				conditionTable: table("Conditions", [], []),
			}),
		],
		[
			"straight-line-forms",
			straightLines(linesOf(treatments[1]), langmuirFits[1]),
		],
		[
			"straight-line-forms-freundlich",
			straightLines(linesOf(treatments[1]), freundlichFits[1]),
		],
		["straight-line-axes", straightLines(linesOf(treatments[1])[1])],
		["calibration-line", calibrationLine(dyeLine, dyeTrial)],
		["calibration-line-bent", calibrationLine(bentLine)],
		["washing-curve", course(washed)],
		["washing-curve-by-ph", course(washedByPH)],
		["washing-curve-refused", course(washedTwice)],
		["drying-curve", course(dried)],
		["drying-curve-refused", course(weighedTwice)],
		[
			"uptake-and-burn-off",
			uptakesAgainstCondition(fired, "iodine", "burn-off"),
		],
		["particle-size-curves", particleSizeCurves(sievings)],
		["particle-size-beyond-the-sieves", particleSizeCurves(fineSieving)],
		[
			"estimates-against-truth",
			straightLines(repeats, {
				title: "What each way makes of the same trials (invented)",
			}),
		],
		[
			"estimates-of-two-sets",
			straightLines({ "all flasks": repeats, "weak solutions only": repeats }),
		],
		["dose-and-removal", doseAndRemoval([removal], removals, { answers })],
		["dose-and-removal-response", doseAndRemoval([hillCurve], removals)],
		[
			"dose-and-removal-mixture",
			doseAndRemoval([mixture.alone, mixture.mixture]),
		],
		[
			"dose-for-a-target",
			doseForTarget([answers[0]], [removal], { background }),
		],
		["dose-for-no-target", doseForTarget([refusedDose], [removal])],
		[
			"dose-for-a-target-in-a-mixture",
			doseForTarget([answers[0]], [mixture.alone, mixture.mixture]),
		],
		[
			"stages-counter-current",
			isotherms([doseFit], { stages: counterCurrent }),
		],
		["stages-cross-current", isotherms([doseFit], { stages: crossCurrent })],
		["van-t-hoff", vanTHoffLine(vanTHoff)],
		["van-t-hoff-two-temperatures", vanTHoffLine(twoTemperatures)],
		["every-layer", isotherm],
		["logarithmic", logarithmic],
		["upright-bars", uprightBars],
	]);
}
