export { type TableAsRead, tablesAsRead } from "./as-read";
export { mostPerMillilitre } from "./char-portion";
export {
	checkRows,
	checkTrial,
} from "./check-trial";
export * as columns from "./column";
export { columnGuide, guideTo } from "./column-guide";
export type { DataColumn, DataFrame, DataGroups } from "./data-frame";
export {
	asUsed,
	inUse,
	isLeftOut,
	isUsable,
	readingsInUse,
	targetText,
	whyLeftOut,
} from "./deviations";
export { withEveryDeviation } from "./every-deviation";
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
export { ofTrial } from "./frame-of-trial";
export { firingFrame, flaskFrame, frame, readingFrame } from "./frames";
export {
	type FurtherRow,
	type FurtherTable,
	furtherTable,
	furtherTableOfRows,
	type NumberRead,
} from "./further-table";
export { endPointOf, halfDrop } from "./glassware/end-point";
export {
	type Balance,
	type GlasswareOptions,
	measuredVolume,
	weighedMass,
} from "./glassware/measured";
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
export type { Deviation, DeviationTarget, Handling, Mark } from "./mark";
export { oneDeterminationPoints } from "./moisture";
export { withSettings } from "./other-settings";
export { dosedWith } from "./probe";
export { sheetFiles } from "./read-file";
export type { TypedCell, TypedRow, TypedRows } from "./read-rows";
export { readTrial, trialFromRows } from "./read-trial";
export {
	type ReadingKind,
	type SignalKind,
	signalKinds,
	signalOf,
} from "./reading-columns";
export { type ReadingDecision, readingDecisions } from "./reading-decisions";
export { readings } from "./readings";
export { requirePath } from "./require-path";
export { requireTrial, step } from "./require-trial";
export { selectFlasks } from "./selected-flasks";
export { nothingOfASoak, type Soaking } from "./soaking";
export { spellingProblems, type WrittenName } from "./spelling";
export type { TableForm } from "./table-form";
export * from "./trial";
export type {
	Absorptivity,
	LossRule,
	TrialOptions,
	TrialSettings,
} from "./trial-settings";
export { usualSettings } from "./trial-settings";
