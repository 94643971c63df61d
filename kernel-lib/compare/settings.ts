import type { Isotherm } from "../isotherms";
import {
	exact,
	input,
	listOption,
	numberOption,
	type OptionRule,
	objectOption,
	type Problem,
	problem,
	type Quantity,
	quantityOption,
	requireOptions,
	stated,
	throwProblems,
	wordOption,
} from "../quantity";
import type { FlaskUptake } from "../uptake";

export interface CompareOptions {
	/** Smallest difference in uptake that would matter, set before looking at the data; `marginOf`. */
	readonly margin: Quantity<"uptake">;
	/** Residual concentration at which treatments are compared, fixed beforehand, near what their flasks leave; `residueOf`. Not given: the middle of what they left, and the head says so. */
	readonly residue?: Quantity<"massConcentration">;
	/** Isotherms to choose from, by AICc over all treatments; Langmuir, Freundlich and Sips unless told otherwise. One alone is taken as it is; a curve of your own will do. */
	readonly isotherms?: readonly Isotherm[];
	/** Probability that all intervals of the comparison hold together; 0.95 unless told otherwise. */
	readonly confidence?: number;
	/** "no difference that matters" by two one-sided tests of each treatment (unless told otherwise), or, stricter, only where the simultaneous interval lies within the margin. */
	readonly sameness?: Sameness;
	/** "moderated" (unless told otherwise): each treatment scatters by itself, its variance drawn to the pooled one; "pooled": all scatter alike, as Dunnett's comparison takes it. */
	readonly spread?: SpreadRule;
	/** Spread between units from experience, for planning where the trial itself shows none. */
	readonly statedSpread?: Quantity<"uptake">;
}

/** How "no difference that matters" is judged. */
export type Sameness = "one-sided tests" | "interval";

/** Whether treatments are taken to scatter alike. */
export type SpreadRule = "moderated" | "pooled";

const rules: Readonly<Record<keyof CompareOptions, OptionRule>> = {
	margin: quantityOption("uptake", "compare.marginOf(25)"),
	residue: quantityOption("massConcentration", "compare.residueOf(2500)"),
	isotherms: listOption(
		objectOption("an isotherm, such as isotherms.langmuir"),
	),
	confidence: numberOption(0.5, 1),
	sameness: wordOption("one-sided tests", "interval"),
	spread: wordOption("moderated", "pooled"),
	statedSpread: quantityOption("uptake", "compare.marginOf(8)"),
};

/** @throws ProblemError for options that a comparison does not have or cannot take, all at once, and where no margin is given */
export function requireCompareOptions(options: CompareOptions): void {
	requireOptions(options, rules, "compareTreatments");
	if ((options.margin as unknown) === undefined)
		throwProblems([
			problem(
				"margin-not-given",
				{},
				"no margin among the options of compareTreatments",
				"the smallest difference in uptake that would matter, set before looking at the results",
				"Write for instance { margin: compare.marginOf(25) }, in mg/g.",
			),
		]);
}

/** The margin in mg/g, the probability that all intervals hold together, and whether treatments are taken to scatter alike. */
export interface Settings {
	readonly margin: number;
	readonly confidence: number;
	readonly spread: SpreadRule;
	readonly sameness: Sameness;
}

export function settingsOf(options: CompareOptions): Settings {
	return {
		margin: options.margin.in("mg/g"),
		confidence: options.confidence ?? 0.95,
		spread: options.spread ?? "moderated",
		sameness: options.sameness ?? "one-sided tests",
	};
}

/**
 * The smallest difference that would matter, in mg of the probe per g of char: an exact number, set by the experimenter.
 *
 * @example
 * compare.marginOf(25).in("g/g") // => 0.025
 */
export function marginOf(mgPerGram: number): Quantity<"uptake"> {
	return input("uptake", mgPerGram, "mg/g", exact, {
		symbol: "margin",
		meaning: "smallest difference that would matter",
		source: stated("set by the experimenter before looking at the results"),
	});
}

/** What makes a comparison impossible whatever the flasks are. */
export function comparisonProblems(
	uptakes: readonly FlaskUptake[],
	{ margin }: Pick<Settings, "margin">,
): Problem[] {
	const problems: Problem[] = [];
	if (uptakes.length === 0)
		problems.push(
			problem(
				"nothing-to-compare",
				{},
				"no char flasks",
				"uptakes of at least one treatment and its control",
				"Add the flasks with char to the bench sheet.",
			),
		);
	if (!(margin > 0))
		problems.push(
			problem(
				"margin-not-positive",
				{},
				`a margin of ${margin} mg/g`,
				"a difference above 0",
				"Say which difference in uptake would matter to you, before you look at the results.",
			),
		);
	return problems;
}
