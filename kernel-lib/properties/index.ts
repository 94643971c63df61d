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
export { contentsOf } from "./char-property";
export {
	type Extraction,
	fixedCarbon,
	moisture,
	totalAsh,
	volatileMatter,
	waterSoluble,
} from "./contents";
export { propertyKind } from "./doors";
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
export {
	type GramOfChar,
	type GramPart,
	gramParts,
	gramsOfChar,
	type ShareOfGram,
	shareText,
} from "./gram-of-char";
export { ballPanHardness, type PanTest } from "./hardness";
export {
	type ParticleSizes,
	particleSizes,
	type SizeClass,
} from "./particle-size";
export { checkProperties, checkPropertyRows } from "./property-sheet";
export * from "./public";
export { labelOf } from "./replicate-sets";
export {
	type Agreement,
	agreementOf,
	meanOfDeterminations,
	pooledScatter,
	type RepeatabilityLimit,
	type Scatter,
} from "./replicates";
export { placesOf } from "./rounding";
export { sieveOpening } from "./sieve-openings";
export type { SieveFraction, Sieving } from "./sieving";
export type { Passing } from "./size-at-share";
export type { Standard } from "./standards";
export {
	type UptakeOnBasis,
	type UptakePerGram,
	uptakeOnBasis,
} from "./uptake-basis";
export type { Weighings } from "./weighings";
