export { type ByItself, byItself } from "./by-itself";
export { calibrationLines, linesOf } from "./calibration-lines";
export { readingCautions } from "./cautions";
export { type DriftCheck, driftChecks, driftTable } from "./drift";
export {
	limitOptions,
	type ReadResidue,
	readResidue,
	requireLines,
} from "./read-residue";
export type { Wavelengths } from "./signal";
