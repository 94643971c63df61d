export { type ByItself, byItself } from "./by-itself";
export { type CalibrationLines, calibrationLines } from "./calibration-lines";
export { readingCautions } from "./cautions";
export { type DriftCheck, driftChecks } from "./drift";
export { limitOptions, linesOf } from "./lines-of-trial";
export {
	type ReadResidue,
	readResidue,
	requireLines,
} from "./read-residue";
export type { Wavelengths } from "./signal";
