import type { Flask, Trial } from "../bench";
import {
	known,
	meanOfRepeats,
	minus,
	named,
	notKnown,
	per,
	type Quantity,
	times,
} from "../quantity";
import { type Account, charMassOf, type Residue } from "../residue";
import { molarMass } from "../substances";
import { ammoniaFirst, ammoniaOf } from "./ammonia";
import { isBelowZero } from "./distinguishable-from-zero";
import type { IodineDemand, SoakCeiling } from "./flask-uptake";
import { lossModel } from "./losses";
import { recoveries } from "./recovery";
import { suspectedDemand } from "./soak";

/** Iodine that a whole leachate would consume, in moles or in grams as its own residue counts: what its dosed part consumed, scaled to the volume that was made. */
function consumed(trial: Trial, leachate: Residue): Quantity {
	const { account, flask } = leachate;
	const left = leachate.left as Quantity<"mass">;
	const { added, withdrawn } = account as Account<"mass">;
	const dosed = minus(added, withdrawn);
	const recovery = recoveries(trial).forFlask(flask);
	const gone =
		recovery.is === "measured"
			? minus(
					minus(dosed, left),
					lossModel(trial).likely({ added, withdrawn }, left, recovery.ratio),
				)
			: minus(dosed, left);
	const whole =
		flask.leachateVolume.recorded && flask.leachateTaken.recorded
			? times(gone, per(flask.leachateVolume.value, flask.leachateTaken.value))
			: gone;
	return named(
		whole,
		`${leachate.is === "titrated" ? "n" : "m"}_{consumed}`,
		`iodine (I2) that the leachate ${flask.name} consumes`,
	);
}

/** The same share of it as mass. */
function massConsumed(
	trial: Trial,
	leachate: Residue,
	share: Quantity<"ratio">,
): Quantity<"mass"> {
	const part = times(consumed(trial, leachate) as Quantity<"amount">, share);
	return leachate.is === "titrated"
		? times(part, molarMass("I2"))
		: (part as Quantity as Quantity<"mass">);
}

/** How much of a leachate's liquor a flask's char carried: by the liquor retained where both are recorded, else by mass of char, as if a gram retained the same. */
function share(
	flask: Flask,
	leachate: Flask,
): { ratio: Quantity<"ratio">; how: string } {
	if (flask.liquorRetained.recorded && leachate.liquorRetained.recorded)
		return {
			ratio: per(flask.liquorRetained.value, leachate.liquorRetained.value),
			how: `scaled by the liquor retained, from leachate ${leachate.name}`,
		};
	return {
		ratio: per(charMassOf(flask).mass, charMassOf(leachate).mass),
		how: `scaled by mass of char, as if every gram retained the same liquor, from leachate ${leachate.name}`,
	};
}

/** A leachate that gives no number: it consumed iodine, and nothing limits how much. */
const unboundedMore = (because: string): SoakCeiling => ({
	more: notKnown(because),
	less: known(0),
	steps: [],
});

/** Mass of iodine that was dosed to a leachate. */
function dosedTo({ is, account }: Residue): Quantity<"mass"> {
	return is === "titrated"
		? times(account.added as Quantity<"amount">, molarMass("I2"))
		: (account.added as Quantity<"mass">);
}

/**
 * What the leachates say: the mean of what they consumed. One that clearly gave back more than its dose consumed nothing: what it holds frees iodine, or its numbers are wrong, and nothing is taken off or added for it.
 */
function measuredDemand(
	trial: Trial,
	flask: Flask,
	chosen: readonly Residue[],
): IodineDemand {
	const parts = chosen.map((r) => {
		const { ratio, how } = share(flask, r.flask);
		const mass = massConsumed(trial, r, ratio);
		return { name: r.flask.name, mass, dosed: dosedTo(r), how };
	});
	const more = parts.filter((p) => isBelowZero(p.mass, p.dosed));
	if (more.length > 0)
		return {
			is: "suspected",
			looksLike: "less uptake",
			ceiling: {
				more: known(0),
				less: notKnown("the leachate held more iodine than it was given"),
				steps: [],
			},
			because: `the leachate ${more.map((p) => p.name).join(", ")} held more iodine than it was given, so that it frees iodine from iodide or its numbers are wrong; look at its dose and its titre or reading, and make another`,
		};
	return {
		is: "measured",
		mass: named(
			meanOfRepeats(
				parts.map((p) => p.mass),
				`leachates ${parts.map((p) => p.name).join(", ")}`,
			),
			"m_{demand}",
			`iodine consumed by soak remains in flask ${flask.name}`,
		),
		how: parts.map((p) => p.how).join("; "),
	};
}

/**
 * Iodine that the soak remains of a flask consume. Leachates of the same treatment are used (of the same soak, where there is one); a leachate that ran dry itself
 * gives no number. Suspected and not measured stays "suspected".
 */
export function demandOf(
	trial: Trial,
	flask: Flask,
	leachates: readonly Residue[],
): IodineDemand {
	const ofTreatment = leachates.filter(
		(r) => r.flask.treatment === flask.treatment,
	);
	const ofSoak = ofTreatment.filter(
		(r) => r.flask.soak !== "" && r.flask.soak === flask.soak,
	);
	const chosen = ofSoak.length > 0 ? ofSoak : ofTreatment;
	const dry = chosen.filter((r) => r.residue.is === "at most");
	if (dry.length > 0)
		return {
			is: "suspected",
			looksLike: "more uptake",
			ceiling: unboundedMore(
				"the leachate used up all the iodine it was given",
			),
			because: `the leachate ${dry.map((r) => r.flask.name).join(", ")} used up all the iodine it was given, so that its demand is not known; ${ammoniaOf(trial, flask) === "named" ? `it may hold ammonia: ${ammoniaFirst}` : "dose it with more"}`,
		};
	const above = chosen.filter((r) => r.residue.is === "at least");
	if (above.length > 0)
		return {
			is: "suspected",
			looksLike: "more uptake",
			ceiling: unboundedMore("the leachate read above the highest standard"),
			because: `the leachate ${above.map((r) => r.flask.name).join(", ")} read above the highest standard, so that its demand is not known; dilute it and read it again`,
		};
	return chosen.length > 0
		? measuredDemand(trial, flask, chosen)
		: suspectedDemand(trial, flask);
}

/** What the char itself took up. */
export function lessDemand(
	takenUp: Quantity<"mass">,
	demand: IodineDemand,
): Quantity<"mass"> {
	return demand.is === "measured" ? minus(takenUp, demand.mass) : takenUp;
}
