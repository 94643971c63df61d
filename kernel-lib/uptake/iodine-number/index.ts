export type { Condition } from "./conditions";
export { dosageFor, nextDosages } from "./dosage";
export {
	conditionTable,
	type IodineNumber,
	iodineNumbers,
	iodineNumberTable,
} from "./iodine-number";
export { type LogLine, logLine } from "./log-line";
export { type DosagePoint, dosagePoints } from "./points";
export { d4607 } from "./standard";
