import { isUsable, step, type Trial } from "../bench";
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

/**
 * Uptake of every flask with char that is not left out, in mg of probe per gram of char, by the running mass balance added = taken up + left + withdrawn + lost; in the order of the sheet. A flask with no
 * measurable residue gives "at least", one with no measurable uptake "at most"; negative uptakes keep their value.
 *
 * @throws ProblemError as `residue.residues` does
 * @example
 * uptake.uptakes(trial)[0].perGram // => "dry char"
 */
export const uptakes: (trial: Trial) => readonly FlaskUptake[] = step((trial) =>
	everyUptake(trial).filter((u) => isUsable(u.flask)),
);

/** Flasks by treatment, in the order in which treatments first appear. */
export function byTreatment(
	list: readonly FlaskUptake[],
): Map<string, FlaskUptake[]> {
	const groups = new Map<string, FlaskUptake[]>();
	for (const u of list) {
		const key = u.flask.treatment;
		groups.set(key, [...(groups.get(key) ?? []), u]);
	}
	return groups;
}
