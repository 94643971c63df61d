/** What the kiln sheet gives, from yields to what to do next: what users call, in the order of use. */

export type { AgentLeft } from "./agent-left";
export { type ActivationCondition, activationConditions } from "./conditions";
export type { Prices } from "./cost";
export { type BenchRule, type Drying, dryings } from "./drying";
export type {
	DryingCurve,
	DryingInterval,
	DryingPoint,
} from "./drying-curve";
export type { FiringYields } from "./firing-yields";
export { type MassBalance, massBalances } from "./mass-balance";
export type { WashPoint, WashReading } from "./rinse-readings";
export type { RinsesNeeded } from "./rinses-needed";
export type {
	NoBalance,
	StageBalance,
	StageName,
	Stream,
} from "./stage-balance";
export type { FiringTargets } from "./targets";
export { type Washing, washouts } from "./washings";
export type { FittedWashout, UnfittedWashout, Washout } from "./washout";
export { type Yields, yields } from "./yields";
