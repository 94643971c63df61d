import { asUsed, type Flask, isUsable, step, type Trial } from "../bench";
import {
	furtherApart,
	meanOfRepeats,
	named,
	type Quantity,
	type Table,
	table,
	withWord,
} from "../quantity";
import { titreVolume } from "../solutions";

/** The indicator blank that is taken off every titration of a day, iodine blanks included. */
export type ReagentBlank =
	| {
			readonly is: "same day" | "other days";
			readonly titre: Quantity<"volume">;
			readonly flasks: readonly string[];
			/** That the blanks lie further apart than reading them explains; "" where they do not. */
			readonly apart: string;
	  }
	| { readonly is: "none" };

/** Reagent blanks by day. */
export interface ReagentBlanks {
	/** The blank for a day: that day's own; where it has none, the mean of the other days; "none" where the sheet has no reagent blank at all. */
	forDay(day: string): ReagentBlank;
	readonly table: Table;
}

function blankOf(
	flasks: readonly Flask[],
	is: "same day" | "other days",
	day: string,
	endPoint: number,
): ReagentBlank {
	const titres = flasks.flatMap((f) =>
		f.titrations.map((t) => titreVolume(t, endPoint)),
	);
	const what = `reagent blank${day === "" ? "" : ` of ${withWord("day", day)}`}`;
	const names = flasks.map((f) => f.name);
	return {
		is,
		titre: named(meanOfRepeats(titres, what), "V_{blank}", what),
		flasks: names,
		apart: furtherApart(
			titres,
			`Titres of the reagent ${names.length === 1 ? "blank" : "blanks"} (${names.join(", ")})`,
			"mL",
		),
	};
}

/**
 * The reagent blanks of a trial, matched to flasks by day: the titre that the indicator and the water need by themselves. Blanks and titres that a deviation leaves out are out.
 * @example
 * residue.reagentBlanks(trial).table.title // => "Reagent blanks"
 */
export const reagentBlanks: (trial: Trial) => ReagentBlanks = step(blanksOf);

function takenFrom(
	is: "same day" | "other days",
	flasks: readonly string[],
): string {
	return `${is === "same day" ? "the same day" : "the other days"}: flask ${flasks.join(", ")}`;
}

/** A day without a titrated blank: what is taken off its flasks where all of them were read by an instrument, as the blank was. */
function withoutTitre(trial: Trial, day: string): [string, string] {
	const inUse = trial.flasks.filter(isUsable);
	const ofDay = inUse.filter((f) => f.day === day);
	const read = inUse.filter(
		(f) => f.contents === "reagent blank" && f.readings.recorded,
	);
	const own = read.filter((f) => f.day === day);
	if (read.length === 0 || ofDay.some((f) => f.titrations.length > 0))
		return ["none", "nothing is taken off"];
	return [
		"read, not titrated",
		own.length > 0
			? takenFrom(
					"same day",
					own.map((f) => f.name),
				)
			: takenFrom(
					"other days",
					read.map((f) => f.name),
				),
	];
}

function apartOf(blanks: readonly ReagentBlank[]): string[] {
	return [
		...new Set(
			blanks.flatMap((b) =>
				b.is === "none" || b.apart === "" ? [] : [b.apart],
			),
		),
	];
}

function blanksOf(trial: Trial): ReagentBlanks {
	const { endPoint } = trial.settings;
	const flasks = trial.flasks
		.filter(
			(f) =>
				f.contents === "reagent blank" && !f.readings.recorded && isUsable(f),
		)
		.map(asUsed);
	const days = [...new Set(trial.flasks.map((f) => f.day))];
	const byDay = new Map<string, ReagentBlank>();
	for (const day of days) {
		const own = flasks.filter((f) => f.day === day);
		byDay.set(
			day,
			own.length > 0
				? blankOf(own, "same day", day, endPoint)
				: flasks.length > 0
					? blankOf(flasks, "other days", "", endPoint)
					: { is: "none" },
		);
	}
	const daysInUse = [
		...new Set(trial.flasks.filter(isUsable).map((f) => f.day)),
	];
	const forDay = (day: string): ReagentBlank =>
		byDay.get(day) ?? { is: "none" };
	return {
		forDay,
		table: table(
			"Reagent blanks",
			["day", "titre of the blank (mL)", "taken from"],
			daysInUse.map((day) => {
				const blank = forDay(day);
				return blank.is === "none"
					? [day, ...withoutTitre(trial, day)]
					: [day, blank.titre, takenFrom(blank.is, blank.flasks)];
			}),
			apartOf(daysInUse.map(forDay)),
		),
	};
}
