/** Temperature series: enthalpy and entropy from a constant that is made dimensionless, and the heat at constant uptake. */

export {
	type Convention,
	type DimensionlessConstant,
	dimensionless,
	type MeasuredConstant,
} from "./constant";
export type { EnthalpyAndEntropy } from "./enthalpy-and-entropy";
export type { FitAtTemperature } from "./fit-at-temperature";
export {
	type IsostericHeat,
	type IsostericOptions,
	isostericHeats,
} from "./isosteric";
export type { LineValue, LinkedLine } from "./linked-line";
export {
	type TemperatureSeries,
	type TemperatureSeriesOptions,
	temperatureSeries,
} from "./temperature-series";
export {
	type AffinityOptions,
	type TemperatureStep,
	temperatureSteps,
} from "./temperature-steps";
export { type VanTHoff, type VanTHoffOptions, vanTHoff } from "./van-t-hoff";
