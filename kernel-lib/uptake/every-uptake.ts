import { step, type Trial } from "../bench";
import { everyResidue, type Residue } from "../residue";
import type { FlaskUptake } from "./flask-uptake";
import { readUptake } from "./read-uptake";
import { titratedUptake } from "./titrated-uptake";

function uptakeOf(trial: Trial, found: Residue): FlaskUptake {
	return found.is === "titrated"
		? titratedUptake(trial, found)
		: readUptake(trial, found);
}

/** Uptakes of all flasks with char, those too that a deviation leaves out: for tables and figures that show what was left out. */
export const everyUptake: (trial: Trial) => readonly FlaskUptake[] = step(
	(trial) =>
		everyResidue(trial)
			.filter((r) => r.flask.contents === "char")
			.map((r) => uptakeOf(trial, r)),
);
