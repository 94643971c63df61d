import type { Plateau } from "./plateau";

/** What one way of reading the plateau off made of all repeats. */
export interface RepeatedWay {
	readonly name: string;
	/** One plateau a repeat, mg/g, sorted. */
	readonly estimates: readonly number[];
	/** Share of the repeats in which its interval held the truth. */
	readonly covered: number;
	readonly median: number;
	/** Ends of the middle estimates, as many of them as the confidence says. */
	readonly low: number;
	readonly high: number;
}

/** What all ways made of the same repeats. */
export interface Repeats {
	/** The values that were put in: those of the fit to the sheet, to two digits. */
	readonly truth: { readonly plateau: number; readonly affinity: number };
	readonly trials: number;
	/** Which flasks a repeat has: "of the trial", or how many of the weakest and how often. */
	readonly flasks: string;
	readonly confidence: number;
	/** The fit to the data as they are first, then the straight-line forms of Langmuir's isotherm. */
	readonly ways: readonly RepeatedWay[];
}

/** One way's plateaus, summed up. */
export function wayOf(
	name: string,
	plateaus: readonly Plateau[],
	truth: number,
	confidence: number,
): RepeatedWay {
	const sorted = plateaus.map((p) => p.value).sort((a, b) => a - b);
	const at = (share: number): number =>
		sorted[Math.round(share * (sorted.length - 1))];
	const held = plateaus.filter((p) => p.low <= truth && truth <= p.high);
	return {
		name,
		estimates: sorted,
		covered: held.length / plateaus.length,
		median: at(0.5),
		low: at((1 - confidence) / 2),
		high: at((1 + confidence) / 2),
	};
}
