/** Fitting curves to points: least squares, intervals, criteria. Knows nothing of chemistry. */
export { fit } from "./fit";
export type { Flag, Known } from "./known";
export {
	type CurveOverArray,
	type DerivativesOverArray,
	defineModel,
	type Model,
	type ModelDefinition,
	type ModelParameter,
	type StartFromData,
} from "./model";
export type {
	Fit,
	FittedParameter,
	Interval,
	Limit,
	TestResult,
} from "./result";
export type { FitData, FitOptions, Loss } from "./task";
