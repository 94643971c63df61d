import type { Isotherm, IsothermPoints } from "../isotherms";
import {
	fitIsotherm,
	type IsothermFit,
	type IsothermFitOptions,
	inDigits,
	nonAdsorbable,
	roughly,
	withNonAdsorbable,
} from "../isotherms";
import { type MaybeKnown, problem, throwProblems } from "../quantity";
import { dosesOf, median, startsOf } from "./question";

/** Whether these flasks show a part of what is measured that no dose of char takes away. */
export interface NaturalBackground {
	readonly is: "shown" | "not shown";
	/** mg/L; 0 where none is shown. */
	readonly concentration: number;
	/** Ends of the profile interval, mg/L. */
	readonly low: MaybeKnown<number>;
	readonly high: MaybeKnown<number>;
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
 */
export function naturalBackground(
	isotherm: Isotherm,
	points: IsothermPoints,
	options: IsothermFitOptions = {},
): NaturalBackground {
	const without = fitIsotherm(isotherm, points, options);
	const starts = startsOf(without);
	const ofTreatment = points.name === "" ? "" : ` of "${points.name}"`;
	throwProblems(
		starts.length > 0 &&
			Math.max(...starts) <= Math.min(...starts) * (1 + oneWaterWithin)
			? []
			: [
					problem(
						"several-waters",
						{},
						starts.length === 0
							? `points without a mass balance${ofTreatment}`
							: `flasks${ofTreatment} that start from ${inDigits(Math.min(...starts), 3)} to ${inDigits(Math.max(...starts), 3)} mg/L`,
						"flasks of one water, differing in the mass of char only",
						"Take the flasks of one water, undiluted; a background is a share of it.",
					),
				],
	);
	const start = median(starts);
	const tried = fitIsotherm(withNonAdsorbable(isotherm), points, options);
	const p = tried.parameters[tried.parameters.length - 1];
	const low: MaybeKnown<number> =
		p.profile.is === "not known"
			? p.profile
			: {
					is: "value",
					value:
						p.profile.value.low.kind === "closed"
							? Math.max(0, p.profile.value.low.value)
							: 0,
				};
	const high: MaybeKnown<number> =
		p.profile.is === "not known"
			? p.profile
			: p.profile.value.high.kind === "open"
				? { is: "not known", because: p.profile.value.high.reason }
				: { is: "value", value: p.profile.value.high.value };
	const shown =
		p.name === nonAdsorbable &&
		p.limit === "none" &&
		low.is === "value" &&
		low.value > 0;
	const most = Math.max(...dosesOf(without));
	const upTo =
		high.is === "value"
			? `they allow up to ${inDigits(high.value, 3)} mg/L`
			: "they set no upper end to it";
	return {
		is: shown ? "shown" : "not shown",
		concentration: shown ? p.value : 0,
		low,
		high,
		share: shown ? p.value / start : 0,
		sentence: shown
			? `About ${inDigits(p.value, 3)} mg/L (${inDigits((100 * p.value) / start, 2)} % of the start) is not taken up at any dose; interval ${low.is === "value" ? inDigits(low.value, 3) : "not known"} to ${high.is === "value" ? inDigits(high.value, 3) : "no upper end"} mg/L. A second solute that is held weakly would look the same.`
			: `A non-adsorbable share is not shown by these data; ${upTo}. Flasks with ${roughly(2 * most)} and ${roughly(4 * most)} g of char per litre would tell: where the residue stops falling, the share is what stays.`,
		fit: shown ? tried : without,
	};
}
