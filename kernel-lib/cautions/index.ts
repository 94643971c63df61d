export { notConcludedFromActivation } from "./for-activation";
export { notConcludedFromProperties } from "./for-properties";
export { cautionsFor, notConcluded } from "./for-run";
export {
	cautionTexts,
	type Hazard,
	hazards,
	hazardsIn,
	type SheetWords,
} from "./hazards";
export { neverConcluded, neverConcludedOf } from "./limits";
export { mustNot } from "./pairs";
