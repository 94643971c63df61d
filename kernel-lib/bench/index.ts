import { valueOrThrow } from "../quantity";
import { checkRows, checkTrial } from "./check-trial";
import type { TypedRows } from "./read-rows";
import type { Trial } from "./trial";

export {
	checkRows,
	checkTrial,
} from "./check-trial";
export * as columns from "./column";
export { columnGuide, guideTo } from "./column-guide";
export type { DataColumn, DataFrame, DataGroups } from "./data-frame";
export { type Handling, isLeftOut, type Mark } from "./deviations";
export { exampleSheet } from "./example-sheet";
export type {
	AgentAmount,
	DryingWeighing,
	Firing,
	Rinse,
	ThermalStep,
} from "./firing";
export { firingKey } from "./firing-names";
export { firingReadings } from "./firing-readings";
export { firingDeviations, firingsInUse } from "./firings-in-use";
export { firingFrame, flaskFrame, frame } from "./frames";
export {
	type FurtherRow,
	type FurtherTable,
	furtherTable,
	furtherTableOfRows,
	type NumberRead,
} from "./further-table";
export { endPointError, endPointSource, halfDrop } from "./glassware/end-point";
export {
	type Balance,
	type GlasswareOptions,
	measuredTitre,
	measuredVolume,
	weighedMass,
} from "./glassware/measured";
export { purity, purityAtLeast } from "./glassware/purity";
export { withTemperatureSpread } from "./glassware/temperature-spread";
export {
	type GlasswareTolerance,
	glasswareTolerance,
	type PieceOfGlassware,
	piecesOfGlassware,
	tolerancesOf,
} from "./glassware/tolerances";
export type {
	CalibrationStandard,
	InstrumentReadings,
} from "./instrument-readings";
export { overview } from "./overview";
export { sheetFiles } from "./read-file";
export type { TypedCell, TypedRow, TypedRows } from "./read-rows";
export {
	type ReadingKind,
	type SignalKind,
	signalOf,
} from "./reading-columns";
export { readings } from "./readings";
export { spellingProblems, type WrittenName } from "./spelling";
export type { TableForm } from "./table-form";
export * from "./trial";

/**
 * Reads a bench sheet: NAME.csv (flasks) with NAME.solutions.csv and, optional, NAME.deviations.csv, NAME.glassware.csv, NAME.activation.csv and NAME.calibration.csv beside it, or one .xlsx workbook with sheets of these
 * names.
 * @throws ProblemError that lists everything that is wrong, each with file, sheet, row and column
 */
export function readTrial(path: string): Trial {
	return valueOrThrow(checkTrial(path));
}

/**
 * A run of rows typed into a cell; the same columns and the same checks as a sheet.
 * @throws ProblemError that lists everything that is wrong
 */
export function trialFromRows(rows: TypedRows): Trial {
	return valueOrThrow(checkRows(rows));
}
