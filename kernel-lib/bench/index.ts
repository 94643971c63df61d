import { valueOrThrow } from "../quantity";
import { checkRows, checkRun } from "./check-run";
import type { TypedRows } from "./read-rows";
import type { Run } from "./run";

export { checkRows, checkRun } from "./check-run";
export { columnGuide } from "./column-guide";
export type { DataColumn, DataFrame, DataGroups } from "./data-frame";
export { exampleSheet } from "./example-sheet";
export { flaskFrame, frame } from "./frames";
export { overview } from "./overview";
export type { TypedCell, TypedRow, TypedRows } from "./read-rows";
export { readings } from "./readings";
export * from "./run";

/**
 * Reads a bench sheet: NAME.csv (flasks) with NAME.solutions.csv and, optional, NAME.deviations.csv and NAME.glassware.csv beside it, or one .xlsx workbook with sheets of these
 * names.
 * @throws ProblemError that lists everything that is wrong, each with file, sheet, row and column
 */
export function readRun(path: string): Run {
	return valueOrThrow(checkRun(path));
}

/**
 * A run of rows typed into a cell; the same columns and the same checks as a sheet.
 * @throws ProblemError that lists everything that is wrong
 */
export function runFromRows(rows: TypedRows): Run {
	return valueOrThrow(checkRows(rows));
}
