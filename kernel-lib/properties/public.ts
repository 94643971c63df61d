/** Moisture, ash, sieve, density, hardness of chars: what users call, in the order of use. */

export { type CharProperty, charProperties } from "./char-properties";
export { propertyColumnGuide } from "./column-guide";
export { grainDensities } from "./grain-densities";
export {
	type Determination,
	type PropertySheet,
	propertiesFromRows,
	readProperties,
	type SievingOfSample,
	type SplitOfSample,
} from "./property-sheet";
export type { RepeatabilityLimits } from "./replicate-sets";
export { answer, nextSteps } from "./sentences";
export { type PropertyName, standardsTable } from "./standards";
export { agreementTable, determinationTable, propertyTable } from "./tables";
export {
	type FlaskUptakePerGram,
	floatingBiasOfChars,
	uptakesOfChars,
} from "./uptakes-of-chars";
