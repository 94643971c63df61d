export {
	checkActivationRows,
	checkActivationRuns,
	checkRows,
	checkTrial,
} from "./check-trial";
export * as columns from "./column";
export { columnGuide, guideTo } from "./column-guide";
export type { DataColumn, DataFrame, DataGroups } from "./data-frame";
export {
	asUsed,
	type Deviation,
	type DeviationTarget,
	type Handling,
	inUse,
	isLeftOut,
	isUsable,
	type Mark,
	readingsInUse,
	targetText,
	touchedFlasks,
	withEveryDeviation,
} from "./deviations";
export { exampleSheet } from "./example-sheet";
export type {
	AgentAmount,
	DryingWeighing,
	Firing,
	FiringSheet,
	Rinse,
	ThermalStep,
} from "./firing";
export { nearestName, runKey } from "./firing-names";
export {
	firingReadings,
	firingsOf,
	requireFirings,
} from "./firing-readings";
export { activationFrame, flaskFrame, frame } from "./frames";
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
export { dosedWith } from "./probe";
export { sheetFiles } from "./read-file";
export type { TypedCell, TypedRow, TypedRows } from "./read-rows";
export {
	activationsFromRows,
	readActivations,
	readTrial,
	trialFromRows,
} from "./read-trial";
export {
	type ReadingKind,
	type SignalKind,
	signalOf,
} from "./reading-columns";
export { readings } from "./readings";
export { spellingProblems, type WrittenName } from "./spelling";
export type { TableForm } from "./table-form";
export * from "./trial";
export type {
	Absorptivity,
	TrialOptions,
	TrialSettings,
} from "./trial-settings";
