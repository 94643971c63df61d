import { inUse, type Solution, type Trial } from "../bench";
import { quoted } from "../quantity";
import { roleOf } from "../substances";

/** Days after which a standardised solution is usually standardised again; common practice, no source. Primary standards in closed bottles keep. */
const keepsDays = { iodine: 1, thiosulfate: 14 } as const;

const spoken = { iodine: "iodine", thiosulfate: "sodium thiosulfate" } as const;

const day = 86_400_000;

/** The last day on which something was titrated (or dosed), as far as the sheet says. */
function lastUse(trial: Trial): number {
	return Math.max(
		...inUse(trial.flasks).flatMap((f) =>
			[f.titratedAt, f.dosedAt].flatMap((d) =>
				d.recorded ? [d.value.getTime()] : [],
			),
		),
		Number.NEGATIVE_INFINITY,
	);
}

/** What to bear in mind about the age of a standardised solution; "" where there is nothing to say. */
export function ageCaution(trial: Trial, solution: Solution): string {
	const role = roleOf(solution.substance);
	if (role === "other") return "";
	const keeps = keepsDays[role];
	if (!solution.standardisedOn.recorded)
		return `The sheet does not say when ${quoted(solution.name)} was standardised; ${spoken[role]} solutions change with age.`;
	const age = Math.floor(
		(lastUse(trial) - solution.standardisedOn.value.getTime()) / day,
	);
	if (!Number.isFinite(age)) return "";
	if (age < 0)
		return `${quoted(solution.name)} was standardised after its last use in this trial: the concentration is taken as it was found then.`;
	return age > keeps
		? `${quoted(solution.name)} was standardised ${age} days before its last use; ${spoken[role]} solutions are usually standardised again after ${keeps === 1 ? "a day" : `${keeps} days`} (common practice).`
		: "";
}
