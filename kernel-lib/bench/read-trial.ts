import { valueOrThrow } from "../quantity";
import { checkRows, checkTrial } from "./check-trial";
import type { TypedRows } from "./read-rows";
import type { Trial } from "./trial";
import type { TrialOptions } from "./trial-settings";

/**
 * Reads a bench sheet as a trial: NAME.csv (flasks) with NAME.solutions.csv and, optional, NAME.deviations.csv, NAME.glassware.csv, NAME.activation.csv and NAME.calibration.csv beside it, or one .xlsx workbook
 * with sheets of these names. A sheet may hold nothing but firings: NAME.activation.csv alone, or a .csv file with a column "firing". The files are read once; every number keeps file, row and column that it came from.
 *
 * @param path of the sheet, seen from the notebook's folder
 * @param options what the sheet leaves open: `probe` where flasks were dosed with several, `drift`, `limitDefinition`, `wavelengths`, `absorptivities` for flasks that an instrument read; and decisions that a laboratory may take
 * otherwise: `losses`, `displacement`, `endPoint`
 * @throws ProblemError that lists everything that is wrong, each with file, sheet, row and column
 * @example
 * bench.readTrial("data/demo-run/hazelnut.csv").probe.name // => "iodine"
 */
export function readTrial(path: string, options: TrialOptions = {}): Trial {
	return valueOrThrow(checkTrial(path, options));
}

/**
 * A trial of rows typed into a cell; the same columns and the same checks as a sheet.
 *
 * @param rows lists of rows by table: flasks, solutions and, optional, deviations, glassware, activation, calibration; activation alone where there are firings and nothing else; a row is an object of head and cell
 * @param options as for `readTrial`
 * @throws ProblemError that lists everything that is wrong
 * @example
 * const flask = { flask: "1", treatment: "control", "char mass (g)": 1.02, "dose (mL)": 40, "made up to (mL)": 100, "aliquot (mL)": 25, "titre (mL)": 5.35 };
 * const solutions = [{ solution: "iodine", substance: "iodine", "concentration (N)": 0.1 }, { solution: "thiosulfate", substance: "sodium thiosulfate", "concentration (N)": 0.1 }];
 * bench.trialFromRows({ flasks: [flask], solutions: solutions }).flasks.length // => 1
 */
export function trialFromRows(
	rows: TypedRows,
	options: TrialOptions = {},
): Trial {
	return valueOrThrow(checkRows(rows, options));
}
