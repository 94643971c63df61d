import { step, type Trial } from "../../bench";
import { type Table, throwProblems, withTable } from "../../quantity";
import type { CalibrationLine } from "../colorimetry";
import { driftTable } from "./drift";
import { linesOf, noLine } from "./lines-of-trial";

/** The calibration lines of a trial. Each is shown as a table and has further ones. */
export interface CalibrationLines extends ReadonlyArray<CalibrationLine> {
	/** Did the instrument drift? Every standard that was read again, with the 95 % prediction interval of such a reading on its line; signals in the unit of the line. */
	readonly drift: Table;
}

const linesKept = step(
	(trial: Trial): CalibrationLines =>
		withTable([...linesOf(trial)], () => driftTable(trial), "drift"),
);

/**
 * The calibration lines of a trial, one for each name in the column `line` of its calibration table; rows that were read again for drift are left to `drift`. Standards that were made from a
 * solution of the sheet share its error with the flasks that were dosed from it. Standards and readings that a deviation leaves out are out.
 *
 * @throws ProblemError that lists everything that is wrong with any of the lines, or says that the sheet has no standards
 * @example
 * const [line] = residue.calibrationLines(dyeTrial);
 * line.table.columns[2] // => "value (u)"
 * line.standards.rows.length === line.points.length // => true
 * line.checks.rows.length // => 7
 * residue.calibrationLines(dyeTrial).drift // => "Did the instrument drift?"
 */
export function calibrationLines(trial: Trial): CalibrationLines {
	throwProblems(noLine(trial));
	return linesKept(trial);
}
