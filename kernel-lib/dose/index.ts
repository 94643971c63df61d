/** From an isotherm to use: removal against dose, dose for a target, stages, and what no dose takes away. */
export { type NaturalBackground, naturalBackground } from "./background";
export { type CharForWater, charFor } from "./char-for";
export type { DoseForTarget } from "./dose";
export {
	doseForRemoval,
	type ResponseDose,
	responseTable,
} from "./dose-for-removal";
export {
	type DoseAnswer,
	type DoseWords,
	doseCautions,
	doseForTarget,
} from "./dose-for-target";
export { doseSentence, stageTable, valueTexts } from "./dose-words";
export { aboutAmount, aboutTexts, doseFinding } from "./finding";
export type { FittedResponse } from "./fitted-response";
export type { Contribution, FromFits } from "./from-fits";
export { fromFits } from "./from-fits";
export type { DoseQuestion, NoDose } from "./question";
export {
	doseProblems,
	type RemovalAt,
	type RemovalByBalance,
	type RemovalCurve,
	type RemovalCurveOptions,
	type RemovalPoint,
	removalCurve,
	removalPoints,
	removalTable,
} from "./removal";
export {
	fitResponse,
	type ResponseFit,
	type ResponseOptions,
} from "./response";
export { responseCurve } from "./response-curve";
export {
	hill,
	type Level,
	logistic,
	type ResponseForm,
} from "./response-forms";
export { responseOf } from "./response-of";
export { scenarios } from "./scenarios";
export {
	type DoseSensitivity,
	doseSensitivity,
} from "./sensitivity";
export type { Scheme, Stage } from "./stages";
