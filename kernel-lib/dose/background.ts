import type { Interval } from "../fit";
import {
	confidenceText,
	fitIsotherm,
	type Isotherm,
	type IsothermFit,
	type IsothermFitOptions,
	type IsothermPoints,
	inDigits,
	nonAdsorbable,
	roughly,
	withNonAdsorbable,
} from "../isotherms";
import {
	known,
	type MaybeKnown,
	mapKnown,
	notKnown,
	type Problem,
	problem,
	quoted,
	throwProblems,
} from "../quantity";
import { dosesOf, median, startsOf } from "./question";

/** Whether these flasks show a part of what is measured that no dose of char takes away. */
export interface NaturalBackground {
	readonly is: "shown" | "not shown";
	/** mg/L; 0 where none is shown. */
	readonly concentration: number;
	/** Ends of the profile interval, mg/L. */
	readonly low: MaybeKnown<number>;
	readonly high: MaybeKnown<number>;
	readonly confidence: number;
	/** The share of the flasks' start, 0 to 1. */
	readonly share: number;
	/** In words, with what would tell where it is not shown. */
	readonly sentence: string;
	/** The fit to go on with: with the background where it is shown, else without. */
	readonly fit: IsothermFit;
}

/** Starts that differ by less are one water. Our decision. */
const oneWaterWithin = 0.05;

/**
 * Estimates the non-adsorbable share of a water from flasks of that water with many doses: the isotherm is fitted with a background C_n besides its own parameters, and the background is taken as shown where its profile interval
 * lies above zero. Otherwise the data do not show it, which does not mean that there is none.
 *
 * A second solute that competes for the char is another matter: it lowers the uptake at every residue and cannot be told from a weaker char in one water; see the mixtures.
 *
 * @throws ProblemError as `fitIsotherm`, and for flasks of differently strong waters, whose background is not one concentration
 * @example
 * const [points] = isotherms.isothermPoints(doseTrial);
 * dose.naturalBackground(isotherms.langmuir, points).is // => "shown"
 */
export function naturalBackground(
	isotherm: Isotherm,
	points: IsothermPoints,
	options: IsothermFitOptions = {},
): NaturalBackground {
	const without = fitIsotherm(isotherm, points, options);
	throwProblems(oneWaterProblems(without));
	const tried = fitIsotherm(withNonAdsorbable(isotherm), points, options);
	const p = tried.parameters[tried.parameters.length - 1];
	const low = mapKnown(p.profile, ({ low }) =>
		low.kind === "closed" ? Math.max(0, low.value) : 0,
	);
	const high = upperEnd(p.profile);
	const shown =
		p.name === nonAdsorbable &&
		p.limit === "none" &&
		low.is === "value" &&
		low.value > 0;
	const share = p.value / median(startsOf(without));
	const { confidence } = tried;
	return {
		is: shown ? "shown" : "not shown",
		concentration: shown ? p.value : 0,
		low,
		high,
		confidence,
		share: shown ? share : 0,
		sentence: shown
			? `About ${inDigits(p.value, 3)} mg/L (${inDigits(100 * share, 2)} % of the start) is not taken up at any dose; ${confidenceText(confidence)} interval ${low.is === "value" ? inDigits(low.value, 3) : "not known"} to ${high.is === "value" ? inDigits(high.value, 3) : "no upper end"} mg/L. A second solute that is held weakly would look the same.`
			: notShown(high, Math.max(...dosesOf(without))),
		fit: shown ? tried : without,
	};
}

function oneWaterProblems(fit: IsothermFit): Problem[] {
	const starts = startsOf(fit);
	const { name } = fit.points;
	const ofTreatment = name === "" ? "" : ` of ${quoted(name)}`;
	const low = Math.min(...starts);
	const high = Math.max(...starts);
	return starts.length > 0 && high <= low * (1 + oneWaterWithin)
		? []
		: [
				problem(
					"several-waters",
					{},
					starts.length === 0
						? `points without a mass balance${ofTreatment}`
						: `flasks${ofTreatment} that start from ${inDigits(low, 3)} to ${inDigits(high, 3)} mg/L`,
					"flasks of one water, differing in the mass of char only",
					"Take the flasks of one water, undiluted; a background is a share of it.",
				),
			];
}

function upperEnd(profile: MaybeKnown<Interval>): MaybeKnown<number> {
	if (profile.is === "not known") return profile;
	const { high } = profile.value;
	return high.kind === "open" ? notKnown(high.reason) : known(high.value);
}

/** @param most g of char per litre in the flask with most */
function notShown(high: MaybeKnown<number>, most: number): string {
	const upTo =
		high.is === "value"
			? `they allow up to ${inDigits(high.value, 3)} mg/L`
			: "they set no upper end to it";
	return `A non-adsorbable share is not shown by these data; ${upTo}. Flasks with ${roughly(2 * most)} and ${roughly(4 * most)} g of char per litre would tell: where the residue stops falling, the share is what stays.`;
}
