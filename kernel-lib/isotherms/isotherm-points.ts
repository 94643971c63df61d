import type { Deviation } from "../bench";
import { type Problem, problem, throwProblems } from "../quantity";
import type { FlaskUptake } from "../uptake";
import { pointsWithErrors } from "./point-errors";
import type { IsothermPoints } from "./points";

export interface PointOptions {
	/** What went wrong on the bench; flasks to be left out are left out. */
	readonly deviations?: readonly Deviation[];
}

/**
 * The points of every treatment, in the order in which treatments first appear. Concentration and uptake of a flask come from one titre: their linked errors are kept. Flasks that ran dry are
 * kept as bounds; a flask whose uptake could not be told from none has a residue that was read, and is a reading like any other.
 *
 * @throws ProblemError when there is no char flask, or when a treatment mixes uptakes per gram of dry char and per gram as weighed
 */
export function isothermPoints(
	uptakes: readonly FlaskUptake[],
	options: PointOptions = {},
): IsothermPoints[] {
	const deviating = new Map(
		(options.deviations ?? [])
			.filter((d) => d.handling === "leave out")
			.flatMap((d) => d.flasks.map((flask) => [flask, d.whatHappened])),
	);
	const treatments = [...new Set(uptakes.map((u) => u.flask.treatment))];
	throwProblems(problemsOf(uptakes, treatments));
	return treatments.map((treatment) => {
		const all = uptakes.filter((u) => u.flask.treatment === treatment);
		const leftOut = all.flatMap((u) => {
			const because = whyLeftOut(u, deviating);
			return because === "" ? [] : [{ flask: u.flask.name, because }];
		});
		const flasks = all.filter((u) => whyLeftOut(u, deviating) === "");
		return {
			name: treatment,
			probe: all[0].probe,
			...pointsWithErrors(flasks),
			flasks,
			leftOut,
		};
	});
}

/** "" for a flask that enters. */
function whyLeftOut(
	u: FlaskUptake,
	deviating: ReadonlyMap<string, string>,
): string {
	const happened = deviating.get(u.flask.name);
	if (happened !== undefined) return `a deviation: ${happened}`;
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
						`uptakes of "${treatment}" per gram of dry char and per gram as weighed`,
						"one of them for all flasks of an isotherm",
						"Give the moisture of all of them, or of none.",
					),
				]
			: [];
	});
}
