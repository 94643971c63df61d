/** What the char took up: recovery, mass balance, uptakes; iodine number; dye numbers; what the firing has to do with it. */

export {
	costTable,
	type FiringUptake,
	feedstockTable,
	firingAnswer,
	firingTable,
	uptakesByFiring,
} from "./by-firing";
export {
	type DyeTitration,
	dosesForRemoval,
	type MethyleneBlueNumber,
	methyleneBlueNumber,
	methyleneBlueSurface,
	methyleneBlueTable,
	methyleneBlueTitrations,
	type RemovalDefinition,
	type ResidueDefinition,
	removalDoseTable,
	type TitrationDefinition,
	uptakeNumberTable,
	uptakesAtResidue,
} from "./dye-numbers";
export type { FlaskUptake, IodineDemand, ProbeBalance } from "./flask-uptake";
export { uptakeFrame } from "./frames";
export {
	type AssumedSlope,
	type Condition,
	conditionTable,
	type DosagePoint,
	dosageTable,
	type IodineNumber,
	iodineNumberLimits,
	iodineNumbers,
	iodineNumberTable,
	nextTrial,
	roughSurfaceAreas,
	type SingleDose,
	singleDoses,
	singleDoseTable,
} from "./iodine-number";
export { type Recoveries, type Recovery, recoveries } from "./recovery";
export { balanceTable, uptakeTable } from "./tables";
export { uptakes } from "./uptakes";
