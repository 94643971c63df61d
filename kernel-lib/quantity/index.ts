export * from "./arithmetic";
export {
	type Measured,
	mapMeasured,
	measured,
	measuredText,
} from "./bound";
export {
	type Budget,
	type BudgetRow,
	budget,
	budgetTable,
	type ExpandedUncertainty,
	expandedText,
	expandedUncertainty,
} from "./budget";
export {
	decimalsFor,
	fixed,
	plainNumber,
	roundedPair,
	unitText,
} from "./format";
export {
	type GlasswareStandard,
	type GlasswareTolerance,
	glasswareTolerance,
	type PieceOfGlassware,
	piecesOfGlassware,
	tolerancesOf,
} from "./glassware-tolerances";
export { sheetHash } from "./identity";
export {
	certificate,
	contentHash,
	type Evidence,
	exact,
	exactRatio,
	halfDivision,
	type InputDescription,
	input,
	normal,
	rectangular,
	stated,
	triangular,
} from "./input";
export { kept } from "./kept";
export { baseUnits, type Kind } from "./kinds";
export {
	type LedgerRow,
	ledgerCsv,
	ledgerRows,
	ledgerTable,
	traceTree,
} from "./ledger";
export {
	type AdaptiveMonteCarlo,
	adaptiveMonteCarlo,
	compareWithFirstOrder,
	type FirstOrderTest,
	type Interval,
	type MonteCarloOptions,
	type MonteCarloResult,
	monteCarlo,
	monteCarloTrials,
	numericalTolerance,
} from "./monte-carlo";
export { didYouMean, nearestName } from "./nearest-name";
export {
	known,
	knownIfFinite,
	type MaybeKnown,
	mapKnown,
	type NotKnown,
	notKnown,
} from "./not-known";
export {
	countOption,
	eitherOption,
	listOption,
	numberOption,
	type OptionRule,
	objectOption,
	optionProblems,
	quantityOption,
	requireOptions,
	textOption,
	wordOption,
	yesNoOption,
} from "./options";
export {
	type Checked,
	nowhere,
	type Problem,
	ProblemError,
	type ProblemPlace,
	problem,
	problemText,
	throwProblems,
	valueOrThrow,
} from "./problem";
export {
	correlation,
	covariance,
	effectiveDegreesOfFreedom,
	type SharedErrors,
	sharedErrors,
} from "./propagation";
export {
	type Distribution,
	jupyterDisplay,
	named,
	type Quantity,
	type Scope,
	type Source,
} from "./quantity";
export {
	meanOfReplicates,
	readingUncertainty,
	withoutReadingErrors,
} from "./replicates";
export {
	type Balance,
	type CorrelatedInput,
	correlatedInputs,
	type GlasswareOptions,
	glasswareCalibration,
	measuredVolume,
	purity,
	purityAtLeast,
	type ReadTogether,
	readTogether,
	repeatedReadings,
	weighedMass,
	withTemperatureSpread,
} from "./sources";
export {
	cellText,
	escapeHtml,
	type Table,
	type TableCell,
	table,
	tableHtml,
	tableText,
} from "./table";
export { fromBase, readUnit, toBase, type UnitOf, units } from "./units";
export { withWord } from "./with-word";
export { type Given, type Working, type WorkingStep, working } from "./working";
