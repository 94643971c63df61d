export {
	type Checked,
	doorFor,
	foundName,
	foundText,
	nowhere,
	type Problem,
	ProblemError,
	type ProblemPlace,
	problem,
	problemText,
	type ResultKind,
	refuse,
	requireList,
	requireNumbers,
	requireResult,
	requireResults,
	requireText,
	throwProblems,
	valueOrThrow,
} from "../problem";
export {
	type AdaptiveMonteCarlo,
	type AdaptiveOptions,
	adaptiveMonteCarlo,
	compareWithFirstOrder,
	type FirstOrderTest,
	numericalTolerance,
} from "./adaptive-monte-carlo";
export * from "./arithmetic";
export {
	type Measured,
	mapMeasured,
	measured,
	measuredText,
} from "./bound";
export {
	type Budget,
	type BudgetOptions,
	type BudgetRow,
	budget,
	type ExpandedUncertainty,
	expandedNumbers,
	expandedText,
	expandedUncertainty,
} from "./budget";
export {
	type CorrelatedInput,
	correlatedInputs,
	type ReadTogether,
	readTogether,
} from "./correlated-inputs";
export {
	bareNumber,
	decimalsFor,
	fixed,
	fixedDigits,
	intervalText,
	plainDigits,
	plainNumber,
	powerOfTen,
	roundedPair,
	significant,
	unitText,
	valueText,
} from "./format";
export { grouped } from "./grouped";
export { sheetHash } from "./identity";
export { idsOf } from "./ids";
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
	one,
	rectangular,
	sha256,
	stated,
	triangular,
} from "./input";
export { kept } from "./kept";
export { baseUnits, type Kind, kindText } from "./kinds";
export {
	type LedgerRow,
	type LineIds,
	ledger,
	ledgerCsv,
	ledgerCsvLines,
	ledgerLines,
	ledgerRows,
	ledgerTable,
	lineIds,
} from "./ledger";
export { listed } from "./listed";
export {
	type Interval,
	type MonteCarloOptions,
	type MonteCarloResult,
	monteCarlo,
	monteCarloTrials,
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
	anyNumberOption,
	anyQuantityOption,
	countOption,
	eitherOption,
	functionOption,
	listOption,
	numberFromOption,
	numberOption,
	type OptionRule,
	objectOption,
	optionProblems,
	quantityOption,
	requireArgument,
	requireOptions,
	textOption,
	wordOption,
	yesNoOption,
} from "./options";
export {
	correlation,
	covariance,
	derivativesBy,
	type ErrorColumn,
	effectiveDegreesOfFreedom,
	errorColumns,
	type LinkedErrors,
	linkedErrors,
	type OwnError,
	type SharedErrors,
	sharedErrors,
} from "./propagation";
export {
	jupyterDisplay,
	named,
	type Quantity,
} from "./quantity";
export { quoted } from "./quoted";
export { repeatedReadings } from "./repeated-readings";
export {
	furtherApart,
	furtherApartThan,
	meanOfRepeats,
	scatterBeyondReading,
} from "./repeats";
export {
	meanOfReplicates,
	readingUncertainty,
	withoutReadingErrors,
} from "./replicates";
export type { Distribution, Scope, Source } from "./source";
export {
	cellText,
	escapeHtml,
	isTyped,
	type Table,
	type TableCell,
	type TypedNumber,
	table,
	tableHtml,
	tableText,
} from "./table";
export { typedDecimals } from "./typed-decimals";
export {
	described,
	type TypedDescription,
	typedInput,
	typedRules,
} from "./typed-in";
export { fromBase, readUnit, toBase, type UnitOf, units } from "./units";
export { type WithTable, withTable } from "./with-table";
export { withWord } from "./with-word";
export { type Given, type Working, type WorkingStep, working } from "./working";
