/** Reading a bench sheet as a trial, looking at it, and going on with its dataframes. */

export { columnGuide } from "./column-guide";
export type { DataColumn, DataFrame, DataGroups } from "./data-frame";
export { exampleSheet } from "./example-sheet";
export type { Firing } from "./firing";
export { firingReadings } from "./firing-readings";
export { firingFrame, flaskFrame, frame, readingFrame } from "./frames";
export {
	type Balance,
	type GlasswareOptions,
	measuredVolume,
	weighedMass,
} from "./glassware/measured";
export type { PieceOfGlassware } from "./glassware/tolerances";
export type { Deviation, DeviationTarget, Handling, Mark } from "./mark";
export type { TypedCell, TypedRow, TypedRows } from "./read-rows";
export { readTrial, trialFromRows } from "./read-trial";
export { readings } from "./readings";
export { selectFlasks } from "./selected-flasks";
export type * from "./trial";
export type { LossRule, TrialOptions, TrialSettings } from "./trial-settings";
