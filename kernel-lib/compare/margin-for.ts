import {
	fixed,
	known,
	type MaybeKnown,
	mapKnown,
	notKnown,
	plainNumber,
} from "../quantity";
import type { Margin } from "./margin";
import type { GroupSummary } from "./verdict";

/** What a control takes up at the residue of the comparison, mg/g, with the interval of its own; not known where it has no mean there, or one with a bound in it. */
function controlUptake(
	groups: readonly GroupSummary[],
	control: string,
	residue: number,
): MaybeKnown<Pick<GroupSummary, "mean" | "low" | "high">> {
	const group = groups.find((g) => g.treatment === control);
	if (group === undefined || group.residue !== residue)
		return notKnown("the control has no uptake at this residue");
	if (group.is !== "value" || group.boundFlasks.length > 0)
		return notKnown("the uptake of the control has a bound in it");
	return group.low > 0
		? known(group)
		: notKnown(
				`the interval of the control's uptake (${fixed(group.low, 1)} to ${fixed(group.high, 1)} mg/g) reaches zero`,
			);
}

/** The margin that holds for treatments with this control, mg/g; a share of the control to three digits, so that what is shown is what was used. */
export function marginFor(
	margin: Margin,
	groups: readonly GroupSummary[],
	control: string,
	residue: number,
): MaybeKnown<number> {
	switch (margin.is) {
		case "not set":
			return notKnown("no margin was set");
		case "uptake":
			return known(margin.uptake.in("mg/g"));
		case "percent of the control": {
			const uptake = controlUptake(groups, control, residue);
			return uptake.is === "not known"
				? notKnown(
						`a margin of ${plainNumber(margin.percent)} % of the control is not to be had: ${uptake.because}`,
					)
				: mapKnown(uptake, ({ mean }) =>
						Number(((margin.percent / 100) * mean).toPrecision(3)),
					);
		}
	}
}

/** Shares of the control at which the words are given where no margin was set: a decision of ours. */
const shares = [5, 10, 20];

/** Three margins in mg/g where none was set: 5, 10 and 20 % of what the control takes up, to two digits. */
export function threeMargins(
	groups: readonly GroupSummary[],
	control: string,
	residue: number,
): MaybeKnown<readonly number[]> {
	return mapKnown(controlUptake(groups, control, residue), ({ mean }) =>
		shares.map((share) => Number(((share / 100) * mean).toPrecision(2))),
	);
}
