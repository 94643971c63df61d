/** What several texts say of a verdict: its whole sentence, its line in short, and what to know before it is quoted. */
import {
	type Comparison,
	type Difference,
	differencePlaces,
	type Interval,
	landmarksOf,
	placesApart,
	suspicionOf,
	type TreatmentVerdict,
	unusualDecisions,
} from "../compare";
import { fixed, listed } from "../quantity";
import { soakMay } from "../uptake";
import { obstacleHeadline } from "./obstacle-words";
import { percent, roughly } from "./wording";

export type Estimate = Extract<Difference, { readonly is: "estimate" }>;

export function intervalText(
	{ low, high }: Interval,
	places: number,
	confidence: number,
	opening = "",
): string {
	return `${percent(confidence)} interval ${opening}${fixed(low, places)} to ${fixed(high, places)}`;
}

/** The interval that "no difference that matters" was judged on, and the decimal places that tell it from the margin. */
export function judgedOn(
	c: Comparison,
	v: TreatmentVerdict,
	found: Estimate,
): { readonly places: number; readonly text: string } {
	const tests = c.sameness === "one-sided tests";
	const judged = tests ? found.oneSided : found;
	const places = placesApart(
		differencePlaces(v),
		[judged.low, judged.high],
		landmarksOf(v.margin),
	);
	const confidence = tests
		? Number((2 * c.confidence - 1).toPrecision(12))
		: c.confidence;
	return { places, text: intervalText(judged, places, confidence) };
}

/** What stands in the way, a suspected demand included even where another obstacle already took the word away. */
export function obstaclesInWay(c: Comparison, v: TreatmentVerdict): string[] {
	const suspicion = suspicionOf(c.compared, v.treatment);
	const demand =
		suspicion.flasks.length > 0
			? [`what is left of its soak ${soakMay[suspicion.looksLike]}`]
			: [];
	return [...new Set([...v.obstacles.map(obstacleHeadline), ...demand])];
}

/** The room that an interval has in it for what soaks may have left; "" for none. */
export function soakRoom({
	difference,
	soakAllowance: { low, high },
}: TreatmentVerdict): string {
	return difference.is === "estimate"
		? listed([
				...(low > 0 ? [`${roughly(low)} mg/g at its lower end`] : []),
				...(high > 0 ? [`${roughly(high)} mg/g at its upper end`] : []),
			])
		: "";
}

/** What was decided otherwise than this program does unless told. */
export function decidedOtherwise(c: Comparison): string[] {
	const decided = unusualDecisions(c).map((d) => `${d.name} ${d.taken}`);
	return decided.length === 0
		? []
		: [`Decided otherwise than usual: ${listed(decided)}`];
}

/** So few units of a treatment lean on the spread of the others. */
export const fewUnits = 3;
