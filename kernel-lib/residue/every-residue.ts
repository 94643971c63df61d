import { asUsed, type Flask, isUsable, step, type Trial } from "../bench";
import { ProblemError } from "../quantity";
import { type ReadResidue, readResidue, requireLines } from "./by-reading";
import { type TitratedResidue, titratedResidue } from "./titrated-residue";

/** What a flask still held in solution: found by a titration, or read by an instrument. */
export type Residue = TitratedResidue | ReadResidue;

function residueOf(trial: Trial, flask: Flask): Residue {
	const used = asUsed(flask);
	return used.readings.recorded
		? readResidue(trial, used, used.readings.value)
		: titratedResidue(trial, used);
}

/** The residue of a flask that is left out; none where what it needs is left out as well, or was never there. */
function residueIfAny(trial: Trial, flask: Flask): Residue[] {
	try {
		return [residueOf(trial, flask)];
	} catch (error) {
		if (error instanceof ProblemError) return [];
		throw error;
	}
}

/** Residues of all flasks that were dosed, those too that a deviation leaves out and that can be computed all the same: for tables and figures that show what was left out. */
export const everyResidue: (trial: Trial) => readonly Residue[] = step(
	(trial) => {
		requireLines(trial);
		return trial.flasks
			.filter((f) => f.contents !== "reagent blank")
			.flatMap((f) =>
				isUsable(f) ? [residueOf(trial, f)] : residueIfAny(trial, f),
			);
	},
);
