export { iodineNumberLimits, nextTrial } from "./advice";
export type { Condition } from "./conditions";
export { dosageFor, nextDosages } from "./dosage";
export {
	conditionTable,
	type IodineNumber,
	iodineNumbers,
	iodineNumberTable,
} from "./iodine-number";
export { type LogLine, logLine } from "./log-line";
export { type DosagePoint, dosagePoints, dosageTable } from "./points";
export {
	type AssumedSlope,
	type SingleDose,
	singleDoses,
	singleDoseTable,
} from "./single-dose";
export { d4607 } from "./standard";
export { roughSurfaceAreas } from "./surface-area";
