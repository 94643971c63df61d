import { isUsable, step, type Trial } from "../bench";
import { type WithTable, withTable } from "../quantity";
import { everyResidue, type Residue } from "./every-residue";
import { residueTable } from "./residue-table";

/**
 * What was left in solution in every flask that was dosed and is not left out (char, blanks without char, leachates), in the order of the sheet. The sheet decides flask by flask whether a titre, a reading on a
 * calibration line or a reading by itself gives the residue; `is` says which. Outside what can be measured the residue is a bound ("at most", "at least"). Shown as a table (titres in mL, residues in mg/L), where
 * flasks that a deviation leaves out are there and say so.
 *
 * @throws ProblemError for solutions or calibration lines that are missing, all flasks named
 * @example
 * residue.residues(trial)[0].is // => "titrated"
 * residue.residues(dyeTrial)[0].is // => "read"
 * residue.residues(trial).table // => "Iodine left in solution"
 */
export const residues: (trial: Trial) => WithTable<readonly Residue[]> = step(
	(trial) =>
		withTable(
			everyResidue(trial).filter((r) => isUsable(r.flask)),
			() => residueTable(trial),
		),
);
