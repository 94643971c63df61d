/** From an isotherm to use: removal against dose, dose for a target, stages, and what no dose takes away. */
export { withNonAdsorbable } from "../isotherms/catalogue/with-non-adsorbable";
export { type NaturalBackground, naturalBackground } from "./background";
export {
	type DoseAnswer,
	type DoseForTarget,
	doseCautions,
	doseForTarget,
} from "./dose-for-target";
export type { Contribution, FromFits } from "./from-fits";
export { fromFits } from "./from-fits";
export type { DoseQuestion, NoDose } from "./question";
export {
	type RemovalAt,
	type RemovalCurve,
	type RemovalCurveOptions,
	type RemovalPoint,
	removalCurve,
	removalPoints,
	removalTable,
} from "./removal";
export {
	doseForRemoval,
	fitResponse,
	type ResponseDose,
	type ResponseFit,
	type ResponseOptions,
	responseCurve,
	responseTable,
} from "./response";
export {
	hill,
	type Level,
	logistic,
	type ResponseForm,
} from "./response-forms";
export {
	type DoseSensitivity,
	doseSensitivity,
	sensitivityTable,
} from "./sensitivity";
export type { Scheme, Stage } from "./stages";
export {
	charFor,
	doseSentence,
	doseTable,
	planTable,
	scenarios,
	stageTable,
	valueTexts,
} from "./tables";
