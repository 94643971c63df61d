/** What was left in solution: the reagent blank, calibration lines, and the residue of every flask. */

export {
	type CalibrationLines,
	calibrationLines,
	type ReadResidue,
	readingCautions,
} from "./by-reading";
export {
	type CalibrationLine,
	calibrate,
	type LineReading,
	type Standard,
} from "./colorimetry";
export type { Residue } from "./every-residue";
export {
	type ReagentBlank,
	type ReagentBlanks,
	reagentBlanks,
} from "./reagent-blank";
export { residues } from "./residues";
export type { TitratedResidue } from "./titrated-residue";
