export type { SolutionAge } from "./age";
export { concentrations, type Titrants } from "./concentrations";
export { concentrationFromMassFraction } from "./densities";
export { type Concentration, dilute, type StockOptions } from "./dilute";
export { makeUp, makeUpIodine, type SolidOptions } from "./make-up";
export { type Portion, type Preparation, weighingList } from "./preparation";
export type { Titrant } from "./titrants";
export { waterDensity } from "./water-density";
