/** What was left in solution: the reagent blank, calibration lines, and the residue of every flask. */

export {
	calibrationLines,
	driftTable,
	type ReadResidue,
	readingCautions,
} from "./by-reading";
export {
	type CalibrationLine,
	calibrate,
	type LineReading,
	lineChecksTable,
	lineTable,
	type Standard,
	standardsTable,
} from "./colorimetry";
export {
	type ReagentBlank,
	type ReagentBlanks,
	reagentBlanks,
} from "./reagent-blank";
export { residueTable } from "./residue-table";
export { type Residue, residues } from "./residues";
export type { TitratedResidue } from "./titrated-residue";
