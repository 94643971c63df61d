/** Fitting a curve of one's own to points: least squares, what the result is worth, intervals. */

export {
	type BootstrapOptions,
	type BootstrapResult,
	bootstrap,
} from "./bootstrap";

export { fit } from "./fit";
export {
	defineModel,
	type Model,
	type ModelDefinition,
} from "./model";

export { type PredictedPoint, type PredictOptions, predict } from "./predict";

export {
	type ParameterInterval,
	type ProfileOptions,
	profileIntervals,
} from "./profile";
export type { Fit, FittedParameter, Interval, Limit } from "./result";

export { fitShared, type SharedFit, type SharedFitOptions } from "./shared";
export type { ToldFit } from "./tables";
export type { FitData, FitOptions } from "./task";
