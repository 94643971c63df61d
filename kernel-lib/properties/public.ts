/** Moisture, ash, sieve, density, hardness of chars: what users call, in the order of use. */

export { type CharProperties, charProperties } from "./char-properties";
export type { CharProperty } from "./char-property";
export { propertyColumnGuide } from "./column-guide";
export type { Determination } from "./determination";
export { grainDensities } from "./grain-densities";
export {
	type PropertySheet,
	propertiesFromRows,
	readProperties,
	type SievingOfSample,
	type SplitOfSample,
} from "./property-sheet";
export type { RepeatabilityLimits } from "./replicate-sets";
export type { PropertyName } from "./standards";
export {
	type FlaskUptakePerGram,
	floatingBiasOfChars,
	uptakesOfChars,
} from "./uptakes-of-chars";
