/** Residues by colour, or by any other reading that a calibration line turns into a concentration. */
export {
	absorbanceOfIntensity,
	absorbanceOfTransmittance,
	lessTurbidity,
	lightOfChannel,
	turbidityShare,
} from "./absorbance";
export { lineFromAbsorptivity } from "./absorptivity";
export { type BandPoint, predictionBand } from "./band";
export {
	type CalibrationOptions,
	calibrate,
	checkCalibration,
	type Standard,
} from "./calibrate";
export { concentrationAt, type InverseReading, readBackwards } from "./inverse";
export {
	type DetectionLimits,
	detectionLimits,
	type LimitDefinition,
	type LimitOptions,
} from "./limits";
export {
	type CalibrationLine,
	type CalibrationPoint,
	type ConcentrationKind,
	type LineModel,
	lineVariance,
	type ReadingError,
	readingVariance,
	type SignalKind,
	signalAt,
} from "./line";
export {
	concentrationOf,
	type LineReading,
	meanSignal,
	readOnLine,
} from "./read-on-line";
export {
	bendTest,
	evenScatter,
	lackOfFit,
	type ShapeTest,
} from "./shape-tests";
export { workingRange } from "./tables";
