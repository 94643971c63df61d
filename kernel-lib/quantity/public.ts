/** The namespace `quantity` of a notebook, in the order of use. */

export { type Problem, ProblemError, type ProblemPlace } from "../problem";
export {
	type AdaptiveOptions,
	compareWithFirstOrder,
	type FirstOrderTest,
} from "./adaptive-monte-carlo";
export { meanOf, minus, per, plus, scaled, times } from "./arithmetic";
export type { Measured } from "./bound";
export {
	type Budget,
	type BudgetOptions,
	type BudgetRow,
	budget,
	type ExpandedUncertainty,
} from "./budget";
export {
	certificate,
	type Evidence,
	exact,
	normal,
	rectangular,
	triangular,
} from "./input";
export type { Kind } from "./kinds";
export { ledger } from "./ledger";
export {
	type Interval,
	type MonteCarloOptions,
	type MonteCarloResult,
	monteCarlo,
} from "./monte-carlo";
export type { MaybeKnown, NotKnown } from "./not-known";
export { correlation } from "./propagation";
export { named, type Quantity } from "./quantity";
export { repeatedReadings } from "./repeated-readings";
export type { Distribution, Scope, Source } from "./source";
export {
	type Table,
	type TableCell,
	type TypedNumber,
	table,
} from "./table";
export { type TypedDescription, typedInput as input } from "./typed-in";
export type { UnitOf } from "./units";
export type { WithTable } from "./with-table";
export { type Given, type Working, type WorkingStep, working } from "./working";
