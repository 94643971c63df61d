import { step, type Trial, targetText, withEveryDeviation } from "../bench";
import { ProblemError } from "../quantity";
import { everyUptake, type FlaskUptake, uptakes } from "../uptake";

/** The flasks of a comparison as the deviations leave them, handled in three ways. A deviation of a blank or a standard moves the uptakes of all flasks that it serves. */
export interface Portions {
	readonly trial: Trial;
	/** As the deviations say that they are to be handled. */
	readonly main: readonly FlaskUptake[];
	/** With everything kept that a deviation touched. */
	readonly kept: readonly FlaskUptake[];
	/** With everything left out that a deviation touched. */
	readonly leftOut: readonly FlaskUptake[];
	/** All flasks with char, those too that are left out. */
	readonly every: readonly FlaskUptake[];
	/** Char flasks that a deviation touched, and what happened, in words. */
	readonly flasks: readonly string[];
	readonly happened: readonly string[];
	/** What else a deviation touched: blanks, leachates, standards, solutions, in words. */
	readonly elsewhere: readonly string[];
}

/** The uptakes with every deviation left out; none where a solution or a line goes with them and nothing can be computed. */
function withoutTouched(trial: Trial): readonly FlaskUptake[] {
	try {
		return uptakes(withEveryDeviation(trial, "leave out"));
	} catch (error) {
		if (error instanceof ProblemError) return [];
		throw error;
	}
}

/** The flasks of a trial's comparison. */
export const portionsOf: (trial: Trial) => Portions = step((trial) => ({
	...portionsAsDecided(trial),
	kept: uptakes(withEveryDeviation(trial, "keep")),
	leftOut: withoutTouched(trial),
}));

/** The same where nobody asks what the other ways of handling the deviations give: all three are as the sheet decides. */
export function portionsAsDecided(trial: Trial): Portions {
	const every = everyUptake(trial);
	const main = uptakes(trial);
	const names = new Set(every.map((u) => u.flask.name));
	const targets = trial.deviations.flatMap((d) =>
		d.targets.map((target) => ({ target, d })),
	);
	const own = targets.filter(
		({ target }) => target.is === "flask" && names.has(target.name),
	);
	const touched = new Set(own.map(({ target }) => target.name));
	return {
		trial,
		main,
		kept: main,
		leftOut: main,
		every,
		flasks: every.map((u) => u.flask.name).filter((n) => touched.has(n)),
		happened: [...new Set(own.map(({ d }) => d.whatHappened))],
		elsewhere: [
			...new Set(
				targets
					.filter((t) => !own.includes(t))
					.map(({ target }) => targetText(target)),
			),
		],
	};
}

/** What deviations touched, as a comparison reports it. */
export function deviationsOf({
	flasks,
	happened,
	elsewhere,
}: Portions): Pick<Portions, "flasks" | "happened" | "elsewhere"> {
	return { flasks, happened, elsewhere };
}

/** True where two ways of handling the deviations give the same flasks with the same uptakes. */
function alike(a: readonly FlaskUptake[], b: readonly FlaskUptake[]): boolean {
	return (
		a.length === b.length &&
		a.every((u, i) => {
			const [one, other] = [u.uptake.quantity, b[i].uptake.quantity];
			return (
				u.flask.name === b[i].flask.name &&
				u.uptake.is === b[i].uptake.is &&
				one.value === other.value &&
				one.standardUncertainty === other.standardUncertainty
			);
		})
	);
}

/** The same result for the flasks as the sheet decides, with all that a deviation touched, and without them. */
export interface Ways<R> {
	readonly main: R;
	readonly kept: R;
	readonly leftOut: R;
}

/** Reads the flasks in each way of handling the deviations; ways that come to the same flasks are read once. */
export function inEachWay<R>(
	portions: Portions,
	read: (flasks: readonly FlaskUptake[]) => R,
): Ways<R> {
	const main = read(portions.main);
	const as = (flasks: readonly FlaskUptake[]): R =>
		alike(flasks, portions.main) ? main : read(flasks);
	return { main, kept: as(portions.kept), leftOut: as(portions.leftOut) };
}
