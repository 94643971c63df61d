import {
	exact,
	foundText,
	input,
	numberFromOption,
	type OptionRule,
	type Problem,
	problem,
	type Quantity,
	requireOptions,
	stated,
	throwProblems,
} from "../quantity";

/** The smallest difference that would matter, as a share of what the control takes up at the residue of the comparison. */
export interface PercentOfControl {
	readonly is: "percent of the control";
	readonly percent: number;
}

/** The smallest difference that would matter, as it was set before looking. */
export type Margin =
	| { readonly is: "not set" }
	| { readonly is: "uptake"; readonly uptake: Quantity<"uptake"> }
	| PercentOfControl;

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

/**
 * The smallest difference that would matter, in per cent of what the control takes up at the residue of the comparison.
 *
 * @param percent 10 for a tenth of the control's uptake
 * @throws ProblemError for what is no number above 0
 * @example
 * compare.compareTreatments(trial, { margin: compare.percentOfControl(10) }).margin.is // => "percent of the control"
 */
export function percentOfControl(percent: number): PercentOfControl {
	throwProblems(
		typeof percent === "number" && percent > 0 && Number.isFinite(percent)
			? []
			: [
					notPositive(
						typeof percent === "number"
							? `a margin of ${percent} % of the control`
							: `${foundText(percent)} as per cent of the control`,
					),
				],
	);
	return { is: "percent of the control", percent };
}

/**
 * The margin of a notebook that has a parameter for either way of setting it.
 *
 * @param set `mgPerG`: in mg of the probe per g of char; `percent`: in per cent of the control's uptake; 0 for the one that is not set
 * @returns the margin for `compareTreatments`; nothing (undefined) where neither is set
 * @throws ProblemError where both are set, or one is below 0
 * @example
 * compare.compareTreatments(trial, { margin: compare.chosenMargin({ mgPerG: 0, percent: 0 }) }).margin.is // => "not set"
 */
export function chosenMargin(set: {
	readonly mgPerG: number;
	readonly percent: number;
}): Quantity<"uptake"> | PercentOfControl | undefined {
	requireOptions(
		set,
		{ mgPerG: numberFromOption(0), percent: numberFromOption(0) },
		"chosenMargin",
	);
	const { mgPerG, percent } = set;
	if (mgPerG > 0 && percent > 0)
		throwProblems([
			problem(
				"two-margins",
				{},
				`two margins, ${mgPerG} mg/g and ${percent} % of the control`,
				"one of them",
				"Set the other to 0.",
			),
		]);
	if (percent > 0) return percentOfControl(percent);
	return mgPerG > 0 ? marginOf(mgPerG) : undefined;
}

export const percentOption: OptionRule = {
	expected: "a share of the control, such as compare.percentOfControl(10)",
	accepts: (value) =>
		typeof value === "object" &&
		value !== null &&
		(value as Partial<PercentOfControl>).is === "percent of the control" &&
		typeof (value as Partial<PercentOfControl>).percent === "number",
};

export function marginSet(
	margin: Quantity<"uptake"> | PercentOfControl | undefined,
): Margin {
	if (margin === undefined) return { is: "not set" };
	return "percent" in margin ? margin : { is: "uptake", uptake: margin };
}

function notPositive(found: string): Problem {
	return problem(
		"margin-not-positive",
		{},
		found,
		"a difference above 0",
		"Say which difference in uptake would matter to you, before you look at the results; leave the margin out where you have none.",
	);
}

/** A margin that was set is above 0. */
export function marginProblems(margin: Margin): Problem[] {
	switch (margin.is) {
		case "not set":
			return [];
		case "uptake": {
			const value = margin.uptake.in("mg/g");
			return value > 0 ? [] : [notPositive(`a margin of ${value} mg/g`)];
		}
		case "percent of the control":
			return margin.percent > 0
				? []
				: [notPositive(`a margin of ${margin.percent} % of the control`)];
	}
}
