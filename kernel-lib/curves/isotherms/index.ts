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
	type Isotherm,
	type IsothermParameter,
	uptakeAt,
} from "./isotherm";
export { langmuir } from "./langmuir";
export { redlichPeterson } from "./redlich-peterson";
export { sips } from "./sips";
export { temkin } from "./temkin";
export { toth } from "./toth";
