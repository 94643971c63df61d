/** Fitting curves to points: least squares, intervals, criteria. Knows nothing of chemistry. */
export {
	type BootstrapKind,
	type BootstrapOptions,
	type BootstrapParameter,
	type BootstrapResult,
	bootstrap,
} from "./bootstrap";
export { checkFit, type FitChecks } from "./checks";
export {
	type InformationCriteria,
	informationCriteria,
	type LikelihoodSummary,
} from "./criteria";
export { fit } from "./fit";
export type { Flag } from "./flag";
export {
	createFitter,
	type FitManyOptions,
	type Fitter,
	fitMany,
	type ManyFits,
	type QuickFit,
} from "./many";
export {
	type CurveOverArray,
	type DerivativesOverArray,
	defineModel,
	type Model,
	type ModelDefinition,
	type ModelParameter,
	type StartFromData,
} from "./model";
export {
	type Band,
	type PredictedPoint,
	type PredictOptions,
	predict,
} from "./predict";
export {
	type ParameterInterval,
	type ProfileOptions,
	type ProfileRule,
	profileIntervals,
} from "./profile";
export type { OnProgress } from "./progress";
export { type JointRegion, jointRegion, type RegionPoint } from "./region";
export type {
	Fit,
	FitScope,
	FittedParameter,
	Interval,
	Limit,
	TestResult,
} from "./result";
export { fitShared, type SharedFit, type SharedFitOptions } from "./shared";
export {
	type Cell,
	errorsInWords,
	fitTable,
	notAvailable,
	parameterTable,
	pointTable,
	type Row,
	type ToldFit,
} from "./tables";
export type { FitData, FitOptions, Loss, Task } from "./task";
