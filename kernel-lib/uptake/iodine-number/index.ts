export { iodineNumberLimits } from "./advice";
export { type Condition, placesNotInSheet } from "./conditions";
export { dosageFor, nextDosages } from "./dosage";
export {
	type IodineNumber,
	type IodineNumbers,
	iodineNumbers,
} from "./iodine-number";
export { iodineNumberKind } from "./kind";
export { type LogLine, logLine } from "./log-line";
export { type DosagePoint, dosagePoints } from "./points";
export {
	type AssumedSlope,
	type SingleDose,
	singleDoses,
} from "./single-dose";
export { d4607 } from "./standard";
