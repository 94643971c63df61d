export {
	ammoniaFirst,
	ammoniaInAny,
	jointAmmonia,
	safeToDose,
} from "./ammonia";
export {
	conditionOfUptake,
	costTable,
	type FiringLink,
	type FiringUptake,
	feedstockTable,
	firingAnswer,
	firingTable,
	linkFirings,
	uptakesByFiring,
} from "./by-firing";
export { contradictionsTold } from "./contradictions-told";
export {
	type ColourDose,
	caramelDefinitions,
	colourRemoved,
	type DoseForRemoval,
	type DyeTitration,
	dosesForRemoval,
	dyeSurface,
	type MethyleneBlueNumber,
	methyleneBlueAreas,
	methyleneBlueNumber,
	methyleneBlueSurface,
	methyleneBlueTable,
	methyleneBlueTitrations,
	type NumberOnLine,
	type Provenance,
	type RelativeDecolourising,
	type RemovalDefinition,
	type ResidueDefinition,
	relativeDecolourising,
	removalDoses,
	removalDoseTable,
	type TitrationDefinition,
	uptakeNumbers,
	uptakeNumberTable,
	uptakesAtResidue,
} from "./dye-numbers";
export type {
	FlaskUptake,
	IodineDemand,
	LooksLike,
	ProbeBalance,
	SoakCeiling,
	SoakSuspicion,
} from "./flask-uptake";
export { uptakeFrame } from "./frames";
export {
	type AssumedSlope,
	type Condition,
	conditionTable,
	type DosagePoint,
	d4607,
	dosageFor,
	dosagePoints,
	dosageTable,
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
export { jointly, soakMay, soakMayLook } from "./soak";
export { isLimited } from "./soak-ceiling";
export { balanceTable, uptakeTable } from "./tables";
export { byTreatment, everyUptake, uptakes } from "./uptakes";
