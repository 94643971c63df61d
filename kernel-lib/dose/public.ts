/** From an isotherm to use: what no dose takes away, removal against dose, the dose for a target, stages, and forms without an isotherm. */

export { type NaturalBackground, naturalBackground } from "./background";
export { type CharForWater, charFor } from "./char-for";
export type { DoseForTarget } from "./dose";
export {
	type DoseAnswer,
	type DoseWords,
	doseCautions,
	doseForTarget,
} from "./dose-for-target";
export type { FittedResponse } from "./fitted-response";
export type { Contribution, FromFits } from "./from-fits";
export type { DoseQuestion, NoDose } from "./question";
export {
	type RemovalAt,
	type RemovalByBalance,
	type RemovalCurve,
	type RemovalCurveOptions,
	type RemovalPoint,
	removalCurve,
} from "./removal";
export type { ResponseFit, ResponseOptions } from "./response";
export {
	hill,
	type Level,
	logistic,
	type ResponseForm,
} from "./response-forms";
export { responseOf } from "./response-of";
export { scenarios } from "./scenarios";
export type { Scheme, Stage } from "./stages";
