export type { FlaskAccount } from "./account";
export { accountOf } from "./account";
export {
	type ByItself,
	byItself,
	calibrationLines,
	type DriftCheck,
	driftChecks,
	driftTable,
	limitOptions,
	linesOf,
	type ReadResidue,
	readingCautions,
	type Wavelengths,
} from "./by-reading";
export { type CharMass, charMassOf } from "./char-mass";
export {
	absorbanceOfIntensity,
	absorbanceOfTransmittance,
	type BandPoint,
	bendTest,
	type CalibrationLine,
	type CalibrationOptions,
	type CalibrationPoint,
	type ConcentrationKind,
	calibrate,
	checkCalibration,
	type DetectionLimits,
	detectionLimits,
	evenScatter,
	type InverseReading,
	type LimitDefinition,
	type LimitOptions,
	type LineModel,
	type LineReading,
	lackOfFit,
	lightOfChannel,
	lineChecksTable,
	lineFromAbsorptivity,
	lineTable,
	predictionBand,
	type ReadingError,
	readBackwards,
	readOnLine,
	type ShapeTest,
	type SignalKind,
	type Standard,
	standardsTable,
	workingRange,
} from "./colorimetry";
export { detectionLimit, displacement } from "./detection";
export { dimerConstant, dimerShare } from "./methylene-blue";
export {
	type ReagentBlank,
	type ReagentBlanks,
	reagentBlanks,
} from "./reagent-blank";
export { residueTable } from "./residue-table";
export { everyResidue, type Residue, residues } from "./residues";
export type { TitratedResidue } from "./titrated-residue";
export { correctedTitre, iodineTitrated } from "./titration";
