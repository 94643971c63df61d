/** Moisture, ash, sieve, density, hardness of chars: what users call, in the order of use. */
export { propertyColumnGuide } from "./columns";
export {
	type Determination,
	type PropertySheet,
	propertiesFromRows,
	readProperties,
	type SievingOfSample,
	type SplitOfSample,
} from "./property-sheet";
export type { RepeatabilityLimits } from "./replicate-sets";
export { agreementTable, determinationTable, propertyTable } from "./tables";
export { type PropertyName, standardsTable } from "./standards";
export { type CharProperty, charProperties } from "./char-properties";
export { grainDensities } from "./grain-densities";
export {
	type FlaskUptakePerGram,
	floatingBiasOfChars,
	uptakesOfChars,
} from "./uptakes-of-chars";
export { answer, nextSteps } from "./sentences";
