export type { SolutionAge } from "./age";
export { concentrations, type Titrants } from "./concentrations";
export { likelySlip } from "./likely-slip";
export {
	type MassConcentrations,
	massConcentrations,
} from "./mass-concentrations";
export { molarMassOf } from "./molar-mass-of";
export { outlierAdvice } from "./outlier";
export {
	type Preparation,
	preparationKind,
	toMeasure,
	totalText,
} from "./preparation";
export { type Contradiction, nothingContradicts } from "./strength";
export type { Titrant } from "./titrants";
export { titreVolume } from "./titre";
