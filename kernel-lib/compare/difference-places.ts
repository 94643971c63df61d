import { decimalsFor, fixed, type MaybeKnown } from "../quantity";

/** Numbers that rounding must not hide in what is shown: zero, and the margin where there is one. */
export function landmarksOf(margin: MaybeKnown<number>): number[] {
	return margin.is === "value" ? [0, margin.value, -margin.value] : [0];
}

/** So many decimal places at most, however near an end lies to a landmark. */
const mostPlaces = 6;

/** The places, or more of them where a number would be rounded onto a landmark that it is not. */
export function placesApart(
	places: number,
	shown: readonly number[],
	landmarks: readonly number[],
): number {
	const hidden = (x: number): boolean =>
		landmarks.some((m) => x !== m && Number(x.toFixed(places)) === m);
	return places < mostPlaces && shown.some(hidden)
		? placesApart(places + 1, shown, landmarks)
		: places;
}

/** What is shown of a difference. */
export interface ShownDifference {
	readonly difference:
		| {
				readonly is: "estimate";
				readonly estimate: number;
				readonly low: number;
				readonly high: number;
		  }
		| { readonly is: "at least" | "at most"; readonly limit: number }
		| { readonly is: "not available" };
	readonly margin: MaybeKnown<number>;
}

/**
 * Decimal places of a difference and its ends in mg/g, the same in every sentence, table and figure: two digits of half its interval, of a bound two digits of a quarter of it; more where an end would be rounded onto zero or the
 * margin. A rule of this program.
 */
export function differencePlaces({
	difference: d,
	margin,
}: ShownDifference): number {
	switch (d.is) {
		case "estimate":
			return placesApart(
				Math.max(0, decimalsFor((d.high - d.low) / 2)),
				[d.low, d.high],
				landmarksOf(margin),
			);
		case "not available":
			return 1;
		default:
			return placesApart(
				Math.max(0, decimalsFor(Math.abs(d.limit) / 4)),
				[d.limit],
				landmarksOf(margin),
			);
	}
}

/** "69 (35 to 100)", "at least 12" or "not available", in mg/g; `places` where another difference sets them. */
export function shownDifference(
	shown: ShownDifference,
	places = differencePlaces(shown),
): string {
	const { difference: d } = shown;
	const text = (value: number): string => fixed(value, places);
	switch (d.is) {
		case "estimate":
			return `${text(d.estimate)} (${text(d.low)} to ${text(d.high)})`;
		case "not available":
			return "not available";
		default:
			return `${d.is} ${text(d.limit)}`;
	}
}
