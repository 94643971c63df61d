/** Temperature series: enthalpy and entropy from a dimensionless constant, heat at constant uptake. */
export {
	type Convention,
	type DimensionlessConstant,
	dimensionless,
	gasConstant,
	type MeasuredConstant,
} from "./constant";
export {
	type IsostericHeat,
	isostericHeats,
	isostericTable,
} from "./isosteric";
export { kelvinsOf } from "./kelvins";
export type { LineValue, LinkedLine } from "./linked-line";
export {
	type AffinityOptions,
	constantTable,
	type TemperatureStep,
	temperatureSteps,
	type VanTHoff,
	vanTHoff,
	vanTHoffSentences,
	vanTHoffTable,
} from "./van-t-hoff";
