export { agentLeft } from "./agent-left";
export { agentInRinse, agentUsed, agentWashedOut } from "./agent-masses";
export {
	type ActivationAgent,
	agentNamed,
} from "./agents";
export { balanceFaults } from "./balance-faults";
export { conditionOf } from "./conditions";
export { type FiringCost, firingCost, moneyText } from "./cost";
export { dryPrecursor, dryProduct } from "./dry-masses";
export { drying } from "./drying";
export { firingYields } from "./firing-yields";
export { stageBalances } from "./mass-balance";
export * from "./public";
export { rinsesNeeded } from "./rinses-needed";
export { requireTargets } from "./targets";
export { type WashCurvePoint, washCurve } from "./wash-curve";
export { washout } from "./washout";
