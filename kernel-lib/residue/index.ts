export type { Account, AtWithdrawal, FlaskAccount } from "./account";
export { accountOf } from "./account";
export {
	type ByItself,
	byItself,
	type CalibrationLines,
	calibrationLines,
	type DriftCheck,
	driftChecks,
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
	lineFromAbsorptivity,
	predictionBand,
	type ReadingError,
	readBackwards,
	readOnLine,
	type ShapeTest,
	type SignalKind,
	type Standard,
	workingRange,
} from "./colorimetry";
export { detectionLimit, displacementOf } from "./detection";
export { everyResidue, type Residue } from "./every-residue";
export { dimerConstant, dimerShare } from "./methylene-blue";
export {
	type ReagentBlank,
	type ReagentBlanks,
	reagentBlanks,
} from "./reagent-blank";
export { residues } from "./residues";
export type { TitratedResidue } from "./titrated-residue";
