import { problem, quoted, throwProblems, type WithTable } from "../quantity";
import type { IsothermPoints } from "./points";

/** The points of one treatment among those of a trial; "" for the only one. */
export function pointsOfTreatment(
	all: readonly WithTable<IsothermPoints>[],
	treatment: string,
): WithTable<IsothermPoints> {
	const found =
		treatment === "" ? all : all.filter((p) => p.name === treatment);
	const names = all.map((p) => quoted(p.name)).join(", ");
	throwProblems(
		found.length === 1
			? []
			: [
					treatment === ""
						? problem(
								"treatment-not-named",
								{},
								`${all.length} treatments and no word which of them is meant`,
								"the name of one treatment",
								`Set the treatment to one of ${names}.`,
							)
						: problem(
								"no-such-treatment",
								{},
								`the treatment ${quoted(String(treatment))}, which has no char flasks on the sheet`,
								`one of ${names}`,
								"Write the name as it stands on the sheet.",
							),
				],
	);
	return found[0];
}
