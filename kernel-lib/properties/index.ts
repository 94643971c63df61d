export {
	type Basis,
	type Contents,
	massForDryMass,
	moistureOnDryBasis,
	moistureOnWetBasis,
	type PerGram,
	type SampleState,
	toBasis,
} from "./basis";
export { apparentDensity, type FilledCylinder } from "./bed-density";
export {
	agreementTable,
	type CharProperty,
	charProperties,
	contentsOf,
	propertyTable,
} from "./char-properties";
export { propertyColumnGuide } from "./columns";
export {
	type Extraction,
	fixedCarbon,
	moisture,
	totalAsh,
	volatileMatter,
	waterSoluble,
} from "./contents";
export {
	checkProperties,
	checkPropertyRows,
	type Determination,
	type PropertySheet,
	propertiesFromRows,
	type RepeatabilityLimits,
	readProperties,
	type SievingOfSample,
	type SplitOfSample,
} from "./determinations";
export {
	type DensityLimit,
	type DensityWindow,
	densityWindows,
	densityWindowTable,
	type FloatSinkSplit,
	floatedShare,
} from "./float-sink";
export {
	type FloatingBias,
	floatingBias,
	floatingBiasTable,
	type TestedWithoutFloating,
	type WholeCharComparison,
	wholeCharUptake,
} from "./floating-bias";
export { ballPanHardness, type PanTest } from "./hardness";
export type { Outcome } from "./outcome";
export {
	type ParticleSizes,
	type Passing,
	particleSizes,
	type SieveFraction,
	type Sieving,
	type SizeClass,
} from "./particle-size";
export {
	type Agreement,
	agreementOf,
	meanOfDeterminations,
	pooledScatter,
	type Scatter,
} from "./replicates";
export {
	determinationTable,
	propertyAdvice,
	propertySentences,
	uptakeBasisTable,
} from "./sentences";
export { sieveOpening } from "./sieve-openings";
export {
	type PropertyName,
	type Standard,
	standardsTable,
} from "./standards";
export {
	type UptakeOnBasis,
	type UptakePerGram,
	uptakeOnBasis,
} from "./uptake-basis";
export {
	type FlaskUptakePerGram,
	floatingBiasOfChars,
	type UptakesOfSheet,
	uptakesOfChars,
} from "./uptakes-of-chars";
export type { Weighings } from "./weighings";
