import { isUsable, step, type Trial } from "../bench";
import { grouped, type Table, withTable } from "../quantity";
import { everyUptake } from "./every-uptake";
import type { FlaskUptake } from "./flask-uptake";
import { balanceTable, uptakeTable } from "./tables";
import { withdrawalTable } from "./withdrawal-table";

/** The uptakes of a trial, shown as a table. */
export interface Uptakes extends ReadonlyArray<FlaskUptake> {
	/** A row a flask with its residue; flasks that a deviation leaves out are there and say so. */
	readonly table: Table;
	/** Where the probe of each flask went, in mg; the columns add up: added = taken up + left + withdrawn + lost. */
	readonly balances: Table;
	/** What flasks that were withdrawn from had taken up by each withdrawal, in mg/g and with the balance in mg; no rows where nothing was withdrawn. */
	readonly withdrawals: Table;
}

/**
 * Uptake of every flask with char that is not left out, in mg of probe per gram of char, by the running mass balance added = taken up + left + withdrawn + lost; in the order of the sheet. A flask with no
 * measurable residue gives "at least", one with no measurable uptake "at most"; negative uptakes keep their value. Shown as a table with the residue (mg/L) that each stands at; `balances` is a second one, which
 * says where the probe of each flask went, `withdrawals` a third, with the uptake at each withdrawal as well as at the end.
 *
 * @throws ProblemError as `residue.residues` does
 * @example
 * uptake.uptakes(trial)[0].perGram // => "dry char"
 * uptake.uptakes(trial).table // => "Iodine uptake of each flask"
 * uptake.uptakes(trial).balances // => "Where the iodine went"
 * uptake.uptakes(trial).withdrawals // => "Uptake of iodine at each withdrawal"
 */
export const uptakes: (trial: Trial) => Uptakes = step((trial) =>
	withTable(
		withTable(
			withTable(
				everyUptake(trial).filter((u) => isUsable(u.flask)),
				() => uptakeTable(trial),
			),
			() => balanceTable(trial),
			"balances",
		),
		() => withdrawalTable(trial),
		"withdrawals",
	),
);

/** Flasks by treatment, in the order in which treatments first appear. */
export const byTreatment = (
	list: readonly FlaskUptake[],
): Map<string, FlaskUptake[]> => grouped(list, (u) => u.flask.treatment);
