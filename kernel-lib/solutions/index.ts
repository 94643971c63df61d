export { type Drift, drift } from "./age";
export { concentrations, type Titrant, type Titrants } from "./concentrations";
export { type Composition, composition } from "./formula";
export { molarMass } from "./molar-mass";
export { outlierAdvice } from "./outlier";
export { equivalentsPerMole, molarityOf, normalityOf } from "./redox";
export {
	aliquotConcentration,
	titrantConcentration,
	titrantConcentrationFromMass,
	weighedConcentration,
} from "./standardisation";
export { type Substance, substances } from "./substances";
export { titreVolume } from "./titre";
