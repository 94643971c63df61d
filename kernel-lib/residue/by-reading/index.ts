export { type ByItself, byItself } from "./by-itself";
export { calibrationLines } from "./calibration-lines";
export { readingCautions } from "./cautions";
export { type DriftCheck, driftChecks, driftTable } from "./drift";
export {
	type ReadingOptions,
	type ReadResidue,
	readResidueTable,
	residuesByReading,
} from "./residues-by-reading";
export type { Wavelengths } from "./signal";
