export { type AgentLeft, agentLeft } from "./agent-left";
export {
	agentInRinse,
	agentUsed,
	agentWashedOut,
} from "./agent-masses";
export {
	type ActivationAgent,
	agentNamed,
} from "./agents";
export { balanceFaults } from "./balance-faults";
export {
	type ActivationCondition,
	activationConditions,
	conditionOf,
} from "./conditions";
export { type FiringCost, firingCost, moneyText, type Prices } from "./cost";
export { definitionTable } from "./definitions";
export { dryPrecursor, dryProduct } from "./dry-masses";
export {
	type BenchRule,
	type Drying,
	type DryingCurve,
	type DryingPoint,
	drying,
	type Span,
} from "./drying";
export { type Finding, findingText } from "./finding";
export {
	massBalance,
	type NoBalance,
	type StageBalance,
	type StageName,
	type Stream,
} from "./mass-balance";
export { type RinsesNeeded, rinsesNeeded } from "./rinses-needed";
export { activationNextSteps, activationSentence } from "./sentences";
export {
	dryingTable,
	figuresTable,
	massBalanceTable,
	washingTable,
} from "./tables";
export {
	type FittedWashout,
	type RefusedWashout,
	targetNumber,
	type WashCurvePoint,
	type Washout,
	type WashPoint,
	type WashReading,
	washCurve,
	washout,
} from "./washout";
export { type FiringYields, firingYields } from "./yields";
