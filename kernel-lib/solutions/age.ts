import { inUse, type Solution, type Trial } from "../bench";
import {
	minus,
	named,
	per,
	plus,
	problem,
	type Quantity,
	throwProblems,
	times,
} from "../quantity";
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
		return `The sheet does not say when ${solution.name} was standardised; ${spoken[role]} solutions change with age.`;
	const age = Math.floor(
		(lastUse(trial) - solution.standardisedOn.value.getTime()) / day,
	);
	if (!Number.isFinite(age)) return "";
	if (age < 0)
		return `${solution.name} was standardised after its last use in this trial: the concentration is taken as it was found then.`;
	return age > keeps
		? `${solution.name} was standardised ${age} days before its last use; ${spoken[role]} solutions are usually standardised again after ${keeps === 1 ? "a day" : `${keeps} days`} (common practice).`
		: "";
}

/** A solution that was standardised on two days. */
export interface Drift {
	/** Change per time, negative where it weakens; relative to the first concentration. */
	readonly rate: Quantity<"perTime">;
	/** Whether the change is larger than twice its standard uncertainty, the shared errors of the two standardisations left out of it. */
	readonly significant: boolean;
	readonly text: string;
	/** The concentration some time after the first standardisation, on the straight line through the two; refuses to go further beyond the second than half the time between them. */
	at(elapsed: Quantity<"time">): Quantity<"concentration">;
}

/** Standard uncertainties beyond which a change counts as drift; a decision of ours. */
const drifted = 2;

/** How far the straight line is followed, in times between the two standardisations; a decision of ours. */
const reach = 1.5;

/**
 * Drift of a standardised solution with its age: the straight line through two standardisations. Errors that both share (the standard, the burette) do not count in the drift.
 *
 * @param elapsed time from the first standardisation to the second
 * @throws ProblemError when no time lies between them
 * @example
 * const molar = (c: number) => quantity.input("concentration", c, "mol/L", quantity.normal(0.0001), {});
 * const days = (n: number) => quantity.input("time", n, "d", quantity.exact, {});
 * solutions.drift(molar(0.1), molar(0.098), days(20)).at(days(10)).in("mol/L") // => 0.099
 */
export function drift(
	first: Quantity<"concentration">,
	second: Quantity<"concentration">,
	elapsed: Quantity<"time">,
): Drift {
	const between = elapsed.in("d");
	if (!(between > 0))
		throwProblems([
			problem(
				"drift-without-time",
				{ column: "drift" },
				`${elapsed} between two standardisations`,
				"some time between them",
				"Give the time from the first standardisation to the second.",
			),
		]);
	const change = minus(second, first);
	const relative = per(change, first);
	const rate = named(
		per(relative, elapsed).to("1/d"),
		"k_{drift}",
		"relative change of the concentration per day",
	);
	const significant =
		Math.abs(change.value) > drifted * change.standardUncertainty;
	return {
		rate,
		significant,
		text: significant
			? `The concentration changed by ${relative.to("%")} in ${elapsed}.`
			: `No change that can be told from the error of the two standardisations (${relative.to("%")} in ${elapsed}).`,
		at: (time) => {
			const after = time.in("d");
			if (after < 0 || after > reach * between)
				throwProblems([
					problem(
						"drift-too-far",
						{ column: "drift" },
						`${after} days after the first of two standardisations that lie ${between} days apart`,
						`0 to ${reach * between} days, half as far again as they lie apart`,
						"Standardise again.",
					),
				]);
			const share = per(time, elapsed);
			return named(
				plus(first, times(share, change)),
				"c_{t}",
				`concentration ${after} days after the first standardisation`,
			);
		},
	};
}
