import { isUsable, step, type Trial, whyLeftOut } from "../bench";
import {
	type Problem,
	problem,
	quoted,
	throwProblems,
	type WithTable,
	withTable,
} from "../quantity";
import { everyUptake, type FlaskUptake } from "../uptake";
import { pointsWithErrors } from "./point-errors";
import { pointTable } from "./point-table";
import type { IsothermPoints } from "./points";
import { pointsOfTreatment } from "./points-of-treatment";

const everyTreatment: (trial: Trial) => readonly WithTable<IsothermPoints>[] =
	step((trial) => pointsOfUptakes(everyUptake(trial), trial));

/**
 * The points of every treatment of a trial, in the order in which treatments first appear, or of the one that is named; residues in mg/L, uptakes in mg/g. Concentration and uptake of a flask come from one titre: their linked errors are kept.
 * Flasks that ran dry are kept as bounds; a flask whose uptake cannot be distinguished from zero has a residue that was read, and is a reading like any other. Flasks that a deviation leaves out are named in `leftOut`. Each treatment is shown as a table.
 *
 * @param treatment the name of one treatment; "" for the only one of the trial
 * @throws ProblemError when there is no char flask, or when a treatment mixes uptakes per gram of dry char and per gram as weighed; when no treatment has the name, or "" leaves several, with their names
 * @example
 * isotherms.isothermPoints(isothermTrial).length // => 2
 * isotherms.isothermPoints(isothermTrial, "fired twice").probe // => "iodine"
 */
export function isothermPoints(
	trial: Trial,
): readonly WithTable<IsothermPoints>[];
export function isothermPoints(
	trial: Trial,
	treatment: string,
): WithTable<IsothermPoints>;
export function isothermPoints(
	trial: Trial,
	treatment?: string,
): WithTable<IsothermPoints> | readonly WithTable<IsothermPoints>[] {
	const all = everyTreatment(trial);
	return treatment === undefined ? all : pointsOfTreatment(all, treatment);
}

/** The same for a list of uptakes. */
export function pointsOfUptakes(
	uptakes: readonly FlaskUptake[],
	{ file, hash }: Pick<Trial, "file" | "hash"> = { file: "", hash: "" },
): WithTable<IsothermPoints>[] {
	const treatments = [...new Set(uptakes.map((u) => u.flask.treatment))];
	throwProblems(problemsOf(uptakes, treatments));
	return treatments.map((treatment) => {
		const all = uptakes.filter((u) => u.flask.treatment === treatment);
		const leftOut = all.flatMap((u) => {
			const because = whyNoPoint(u);
			return because === "" ? [] : [{ flask: u.flask.name, because }];
		});
		const flasks = all.filter((u) => whyNoPoint(u) === "");
		const points: IsothermPoints = {
			name: treatment,
			probe: all[0].probe,
			file,
			hash,
			...pointsWithErrors(flasks),
			flasks,
			leftOut,
		};
		return withTable(points, pointTable);
	});
}

/** "" for a flask that enters. */
function whyNoPoint(u: FlaskUptake): string {
	if (!isUsable(u.flask)) return `a deviation: ${whyLeftOut(u.flask)}`;
	if (u.contradiction !== "")
		return `its numbers cannot all be right: ${u.contradiction}`;
	if (u.residue.is === "at least")
		return "it read above the highest standard, so that neither its residue nor its uptake is known";
	return u.residue.is !== "value" &&
		u.demand.is === "suspected" &&
		u.demand.looksLike !== "less uptake"
		? `it ran dry and what is left of its soak may have used up the ${u.probe}, so that it bounds nothing of the char`
		: "";
}

function problemsOf(
	uptakes: readonly FlaskUptake[],
	treatments: readonly string[],
): Problem[] {
	if (uptakes.length === 0)
		return [
			problem(
				"no-char-flasks",
				{},
				"no flask with char",
				"several flasks with different doses or masses of char",
				"Add the flasks with char to the bench sheet.",
			),
		];
	return treatments.flatMap((treatment) => {
		const own = uptakes.filter((u) => u.flask.treatment === treatment);
		return new Set(own.map((u) => u.perGram)).size > 1
			? [
					problem(
						"mixed-char-mass",
						own[0].flask.place,
						`uptakes of ${quoted(treatment)} per gram of dry char and per gram as weighed`,
						"one of them for all flasks of an isotherm",
						"Give the moisture of all of them, or of none.",
					),
				]
			: [];
	});
}
