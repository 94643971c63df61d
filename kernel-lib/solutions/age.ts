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

/** How old a solution was when it was last used in its trial, and what that means. */
export type SolutionAge =
	/** A primary standard, or something whose strength is of no concern. */
	| { readonly is: "of no concern" }
	| { readonly is: "date not recorded" }
	/** The sheet does not say when it was used. */
	| { readonly is: "use not recorded" }
	| { readonly is: "standardised afterwards" }
	| {
			/** "due": older than such a solution keeps. */
			readonly is: "within its time" | "due";
			readonly days: number;
			readonly keepsDays: number;
	  };

export function ageOf(trial: Trial, solution: Solution): SolutionAge {
	const role = roleOf(solution.substance);
	if (role === "other") return { is: "of no concern" };
	if (!solution.standardisedOn.recorded) return { is: "date not recorded" };
	const days = Math.floor(
		(lastUse(trial) - solution.standardisedOn.value.getTime()) / day,
	);
	if (!Number.isFinite(days)) return { is: "use not recorded" };
	if (days < 0) return { is: "standardised afterwards" };
	const keeps = keepsDays[role];
	return {
		is: days > keeps ? "due" : "within its time",
		days,
		keepsDays: keeps,
	};
}

/** What to bear in mind about the age of a standardised solution; "" where there is nothing to say. */
export function ageCaution(trial: Trial, solution: Solution): string {
	const role = roleOf(solution.substance);
	if (role === "other") return "";
	const age = ageOf(trial, solution);
	const name = quoted(solution.name);
	switch (age.is) {
		case "date not recorded":
			return `The sheet does not say when ${name} was standardised; ${spoken[role]} solutions change with age.`;
		case "standardised afterwards":
			return `${name} was standardised after its last use in this trial: the concentration is taken as it was found then.`;
		case "due":
			return `${name} was standardised ${age.days} days before its last use; ${spoken[role]} solutions are usually standardised again after ${age.keepsDays === 1 ? "a day" : `${age.keepsDays} days`} (common practice).`;
		default:
			return "";
	}
}
