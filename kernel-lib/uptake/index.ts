export {
	type ActivatedUptake,
	type ActivationLink,
	activatedUptakeTable,
	conditionOfUptake,
	feedstockCapacity,
	feedstockTable,
	type UptakeCost,
	uptakeCost,
	uptakeCostTable,
	withActivation,
} from "./by-activation";
export { demandOf } from "./demand";
export type { FlaskUptake, IodineBalance, IodineDemand } from "./flask-uptake";
export {
	type AssumedSlope,
	type Condition,
	conditionTable,
	type DosagePoint,
	d4607,
	dosageFor,
	dosagePoints,
	type IodineNumber,
	iodineNumberLimits,
	iodineNumbers,
	iodineNumberTable,
	type LogLine,
	logLine,
	nextDosages,
	nextTrial,
	roughSurfaceAreas,
	type SingleDose,
	singleDoses,
	singleDoseTable,
} from "./iodine-number";
export {
	lossOf,
	type Recoveries,
	type Recovery,
	recoveries,
} from "./recovery";
export { balanceTable, uptakeTable } from "./tables";
export { byTreatment, uptakes } from "./uptakes";
export { uptakesByReading } from "./uptakes-by-reading";
