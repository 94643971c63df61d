export { notConcludedFromActivation } from "./for-activation";
export { notConcludedFromProperties } from "./for-properties";
export { cautionsFor, notConcluded } from "./for-run";
export {
	type Caution,
	cautionsIn,
	cautionTexts,
	mustNot,
	type RowWords,
	type SheetWords,
} from "./hazards";
export { neverConcluded, neverConcludedOf } from "./limits";
