import type { Isotherm } from "../isotherms";
import {
	eitherOption,
	listOption,
	numberOption,
	type OptionRule,
	objectOption,
	type Problem,
	problem,
	type Quantity,
	quantityOption,
	requireOptions,
	throwProblems,
	wordOption,
} from "../quantity";
import type { FlaskUptake } from "../uptake";
import {
	type Margin,
	marginProblems,
	marginSet,
	type PercentOfControl,
	percentOption,
} from "./margin";
import type { Claim, Sameness } from "./word";

export interface CompareOptions {
	/** Smallest difference in uptake that would matter, set before looking at the data, in mg/g (`marginOf`) or in per cent of the control (`percentOfControl`). Not given: "no difference that matters" is never said, and pages give the words at three margins. */
	readonly margin?: Quantity<"uptake"> | PercentOfControl;
	/** What is to be shown, chosen before looking: that treatment and control differ (unless told otherwise), or that the treatment takes up more by at least the margin. */
	readonly claim?: Claim;
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
	/** Slopes 1/n that are allowed for where the doses of the trial have not measured them; what is known of the probe unless told otherwise. */
	readonly slopes?: SlopeLimits;
	/** Spread between units from experience, for planning where the trial itself shows none. */
	readonly statedSpread?: Quantity<"uptake">;
}

/** A range of slopes 1/n, from 0 (uptake does not depend on the residue) to 1 (it is proportional to it); both ends may be one number. */
export interface SlopeLimits {
	readonly low: number;
	readonly high: number;
}

/** Whether treatments are taken to scatter alike. */
export type SpreadRule = "moderated" | "pooled";

const slopesOption: OptionRule = {
	expected: "{ low: 0.1, high: 0.5 }, numbers from 0 to 1, the lower one first",
	accepts: (value) => {
		const { low, high } = (value ?? {}) as Partial<SlopeLimits>;
		return (
			typeof low === "number" &&
			typeof high === "number" &&
			0 <= low &&
			low <= high &&
			high <= 1
		);
	},
};

const rules: Readonly<Record<keyof CompareOptions, OptionRule>> = {
	margin: eitherOption(
		quantityOption("uptake", "compare.marginOf(25)"),
		percentOption,
	),
	claim: wordOption("difference", "at least the margin more"),
	residue: quantityOption("massConcentration", "compare.residueOf(2500)"),
	isotherms: listOption(
		objectOption("an isotherm, such as isotherms.langmuir"),
	),
	confidence: numberOption(0.5, 1),
	sameness: wordOption("one-sided tests", "interval"),
	spread: wordOption("moderated", "pooled"),
	slopes: slopesOption,
	statedSpread: quantityOption("uptake", "compare.marginOf(8)"),
};

/** @throws ProblemError for options that a comparison does not have or cannot take, all at once, and for a claim that needs a margin where none is given */
export function requireCompareOptions(options: CompareOptions): void {
	requireOptions(options, rules, "compareTreatments");
	if (
		options.claim === "at least the margin more" &&
		options.margin === undefined
	)
		throwProblems([
			problem(
				"claim-without-margin",
				{},
				'the claim "at least the margin more", and no margin among the options of compareTreatments',
				"the smallest difference in uptake that would matter, set before looking at the results",
				"Write for instance { margin: compare.marginOf(25) }, in mg/g.",
			),
		]);
}

/** Margin and claim, the probability that all intervals hold together, and whether treatments are taken to scatter alike. */
export interface Settings {
	readonly margin: Margin;
	readonly claim: Claim;
	readonly confidence: number;
	readonly spread: SpreadRule;
	readonly sameness: Sameness;
	/** Where they were not measured; "of the probe" unless told otherwise. */
	readonly slopes: SlopeLimits | "of the probe";
}

export function settingsOf(options: CompareOptions): Settings {
	return {
		margin: marginSet(options.margin),
		claim: options.claim ?? "difference",
		confidence: options.confidence ?? 0.95,
		spread: options.spread ?? "moderated",
		sameness: options.sameness ?? "one-sided tests",
		slopes: options.slopes ?? "of the probe",
	};
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
	return [...problems, ...marginProblems(margin)];
}
