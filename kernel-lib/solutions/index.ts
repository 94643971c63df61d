export { molarMass } from "../substances";
export { type Drift, drift } from "./age";
export { concentrations, type Titrant, type Titrants } from "./concentrations";
export {
	concentrationFromMassFraction,
	densitiesOnRecord,
	solutionDensity,
} from "./densities";
export {
	type Concentration,
	dilute,
	diluteConcentrate,
	makeUpByMassFraction,
	makeUpByMassPerVolume,
	makeUpIodine,
	makeUpMolar,
	type Portion,
	type Preparation,
	recipeSentence,
	recipeVolume,
	type SolidOptions,
	weighingList,
} from "./making-up";
export {
	type MassConcentrations,
	massConcentrations,
} from "./mass-concentrations";
export { molarMassOf } from "./molar-mass-of";
export { outlierAdvice } from "./outlier";
export { equivalentsPerMole, molarityOf, normalityOf } from "./redox";
export {
	aliquotConcentration,
	titrantConcentration,
	titrantConcentrationFromMass,
	weighedConcentration,
} from "./standardisation";
export { strengthSentence } from "./strength-sentence";
export { titreVolume } from "./titre";
export { waterDensity } from "./water-density";
