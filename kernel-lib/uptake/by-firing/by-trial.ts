import type { Prices } from "../../activation";
import { firingDeviations, step, type Trial } from "../../bench";
import {
	numberOption,
	requireOptions,
	type Table,
	table,
	textOption,
	withTable,
} from "../../quantity";
import { uptakes } from "../uptakes";
import { uptakeCost, uptakeCostTable } from "./cost";
import { type FiringUptake, linkFirings } from "./link";
import { feedstockTableOf, uptakeTableOf } from "./tables";

/** The uptakes of a trial with their firings, shown as a table. */
export interface FiringUptakes extends ReadonlyArray<FiringUptake> {
	/** A row a flask: what was done in its firing, burn-off, yield, uptake. */
	readonly table: Table;
	/** Uptake per gram of dry feedstock (mg/g is g/kg), with the firings on the way and their yield. */
	readonly perFeedstock: Table;
}

/** What a sheet of firings alone cannot give. */
export function withoutFlasks({ file, flasks }: Trial): string[] {
	return flasks.length === 0
		? [
				`${file} holds no flasks, so there are no uptakes to set beside its firings.`,
			]
		: [];
}

/** The same table with what deviations left out of the firings. */
function withNotes(
	trial: Trial,
	{ title, columns, rows, notes }: Table,
): Table {
	return table(title, columns, rows, [
		...withoutFlasks(trial),
		...notes,
		...firingDeviations(trial),
	]);
}

const uptakesKept = step((trial: Trial): FiringUptakes => {
	const list = linkFirings(uptakes(trial), trial);
	return withTable(
		withTable(list, () => withNotes(trial, uptakeTableOf(list))),
		() => withNotes(trial, feedstockTableOf(list)),
		"perFeedstock",
	);
});

/**
 * Every uptake (mg/g) with the firing that its char came from: the one that the flask's `soak` names, else the one that its `char batch` names; and the uptake per gram of dry feedstock, which is the uptake times the
 * yields of all firings on the way. A flask without a firing says why. Shown as a table; `perFeedstock` is a second one.
 * @throws ProblemError where the trial cannot give uptakes
 * @example
 * const [first] = uptake.uptakesByFiring(kilnTrial);
 * first.firing.is === "linked" ? first.firing.chain : [] // => ["lid 1"]
 * uptake.uptakesByFiring(kilnTrial).table // => "Uptake of iodine in each flask, and the firing that its char came from"
 * uptake.uptakesByFiring(kilnTrial).perFeedstock // => "What the feedstock is good for"
 */
export function uptakesByFiring(trial: Trial): FiringUptakes {
	return uptakesKept(trial);
}

/**
 * What a gram taken up costs in each flask: energy, agent and precursor of its firing, over the product and what a gram of it took up at the residue of the flask.
 *
 * @param prices typed in, without uncertainty; what has no price is not counted and is named
 * @throws ProblemError for a price that is negative, and for a price that it does not know
 * @example
 * uptake.costTable(kilnTrial, { currency: "EUR", perKilowattHour: 0.3 }) // => "Cost per gram taken up, at each flask's residue"
 */
export function costTable(trial: Trial, prices: Prices): Table {
	const price = numberOption(
		Number.NEGATIVE_INFINITY,
		Number.POSITIVE_INFINITY,
	);
	requireOptions(
		prices,
		{
			currency: textOption,
			perKilowattHour: price,
			agentPerKilogram: price,
			precursorPerKilogram: price,
		},
		"costTable",
	);
	return withNotes(
		trial,
		uptakeCostTable(uptakesByFiring(trial).map((u) => uptakeCost(u, prices))),
	);
}
