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
	type FiringRoute,
	type FiringUptake,
	type FiringUptakes,
	firingName,
	firingRoutes,
	linkFirings,
	unlinkedSentences,
	uptakesByFiring,
	withoutFlasks,
} from "./by-firing";
export { type Contradicted, contradictionsTold } from "./contradictions-told";
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
	methyleneBlueNumbers,
	methyleneBlueSurface,
	methyleneBlueTitrations,
	type NumberOnLine,
	numbersByDefinition,
	type Provenance,
	type RelativeDecolourising,
	type RemovalDefinition,
	type ResidueDefinition,
	relativeDecolourising,
	removalDoses,
	type TitrationDefinition,
	uptakeNumbers,
	uptakesAtResidue,
} from "./dye-numbers";
export { everyUptake } from "./every-uptake";
export { titrationPH } from "./flask-cautions";
export type {
	FlaskUptake,
	IodineDemand,
	LooksLike,
	ProbeBalance,
	SoakCeiling,
	SoakSuspicion,
	UptakeAtWithdrawal,
} from "./flask-uptake";
export { uptakeFrame } from "./frames";
export {
	type AssumedSlope,
	type Condition,
	type DosagePoint,
	d4607,
	dosageFor,
	dosagePoints,
	type IodineNumber,
	type IodineNumbers,
	iodineNumberKind,
	iodineNumberLimits,
	iodineNumbers,
	type LogLine,
	logLine,
	nextDosages,
	placesNotInSheet,
	type SingleDose,
	singleDoses,
} from "./iodine-number";
export { lossOf } from "./losses";
export {
	assumedJarSpread,
	type Recoveries,
	type Recovery,
	recoveries,
} from "./recovery";
export { jointly, soakMay, soakMayLook, soakTexts } from "./soak";
export { isLimited } from "./soak-ceiling";
export type { TakenAs } from "./taken-as";
export { byTreatment, type Uptakes, uptakes } from "./uptakes";
