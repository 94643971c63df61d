export { betLiquid } from "./bet-liquid";
export { dualSiteLangmuir } from "./dual-site-langmuir";
export {
	dubininRadushkevich,
	type PotentialForm,
} from "./dubinin-radushkevich";
export { freundlich } from "./freundlich";
export { henry } from "./henry";
export {
	derivativesAt,
	derivativesOver,
	type Isotherm,
	type IsothermParameter,
	numericalSlope,
	type Plateau,
	uptakeAt,
} from "./isotherm";
export { langmuir } from "./langmuir";
export { type OwnCurve, ownIsotherm } from "./own-isotherm";
export { redlichPeterson } from "./redlich-peterson";
export { sips } from "./sips";
export { temkin } from "./temkin";
export { toth } from "./toth";
