/** Reading a bench sheet as a trial, looking at it, and going on with its dataframes. */

export { columnGuide } from "./column-guide";
export type { DataColumn, DataFrame, DataGroups } from "./data-frame";
export type { Deviation, DeviationTarget, Handling, Mark } from "./deviations";
export { withEveryDeviation } from "./deviations";
export { exampleSheet } from "./example-sheet";
export type { Firing } from "./firing";
export { firingReadings, requireFirings } from "./firing-readings";
export { activationFrame, flaskFrame, frame, readingFrame } from "./frames";
export type { FurtherRow, FurtherTable } from "./further-table";
export { furtherTable, furtherTableOfRows } from "./further-table";
export { overview } from "./overview";
export type { TypedCell, TypedRow, TypedRows } from "./read-rows";
export {
	activationsFromRows,
	readActivations,
	readTrial,
	trialFromRows,
} from "./read-trial";
export { readings } from "./readings";
export { selectFlasks } from "./selected-flasks";
export type * from "./trial";
export type { TrialOptions, TrialSettings } from "./trial-settings";
