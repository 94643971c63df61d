/** What the char took up: recovery, mass balance, uptakes; iodine number; dye numbers; what the firing has to do with it. */

export {
	costTable,
	type FiringUptake,
	type FiringUptakes,
	uptakesByFiring,
} from "./by-firing";
export {
	type DyeTitration,
	dosesForRemoval,
	type MethyleneBlueNumber,
	methyleneBlueNumbers,
	methyleneBlueSurface,
	methyleneBlueTitrations,
	numbersByDefinition,
	type RemovalDefinition,
	type ResidueDefinition,
	type TitrationDefinition,
	uptakesAtResidue,
} from "./dye-numbers";
export type {
	FlaskUptake,
	IodineDemand,
	ProbeBalance,
	UptakeAtWithdrawal,
} from "./flask-uptake";
export { uptakeFrame } from "./frames";
export {
	type AssumedSlope,
	type Condition,
	type DosagePoint,
	type IodineNumber,
	type IodineNumbers,
	iodineNumberLimits,
	iodineNumbers,
	type SingleDose,
	singleDoses,
} from "./iodine-number";
export {
	type JarSpread,
	type Recoveries,
	type Recovery,
	recoveries,
} from "./recovery";
export type { TakenAs } from "./taken-as";
export { type Uptakes, uptakes } from "./uptakes";
