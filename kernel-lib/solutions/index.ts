export { concentrations, type Titrant, type Titrants } from "./concentrations";
export { likelySlip } from "./likely-slip";
export {
	type MassConcentrations,
	massConcentrations,
} from "./mass-concentrations";
export { molarMassOf } from "./molar-mass-of";
export { outlierAdvice } from "./outlier";
export { solutionTable } from "./solution-table";
export { type Contradiction, nothingContradicts } from "./strength";
export { titreVolume } from "./titre";
