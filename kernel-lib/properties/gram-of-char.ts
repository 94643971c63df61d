import {
	decimalsFor,
	exactRatio,
	expandedUncertainty,
	fixed,
	minus,
	type Quantity,
	times,
} from "../quantity";
import type { CharProperty } from "./char-property";
import type { PropertyName } from "./standards";

/** What a gram of char is made of, as far as the usual determinations tell. */
export const gramParts = [
	"moisture",
	"total ash",
	"volatile matter",
	"fixed carbon",
] as const;

export type GramPart = (typeof gramParts)[number];

/** A part of a gram of char. */
export interface ShareOfGram {
	readonly part: GramPart;
	/** Of the gram on its basis, in %. */
	readonly share: Quantity<"ratio">;
	/** Determinations disagree that lie further apart than their limit; "once" shows nothing of how portions differ. */
	readonly rests: "on agreeing determinations" | "on disagreeing ones" | "once";
	/** 95 % interval in %; where it rests on one determination, of the readings alone. */
	readonly interval: { readonly low: number; readonly high: number };
}

/** What is in a gram of one char. */
export interface GramOfChar {
	readonly sample: string;
	/** "as weighed" where the moisture of every char of the table is known; else "dry". */
	readonly basis: "as weighed" | "dry";
	/** In the order of `gramParts`; what was not determined is not among them. */
	readonly shares: readonly ShareOfGram[];
}

type Known = CharProperty & {
	readonly outcome: { readonly is: "value"; readonly quantity: Quantity };
};

const find = (
	properties: readonly CharProperty[],
	sample: string,
	name: PropertyName,
): Known | undefined =>
	properties.find(
		(p): p is Known =>
			p.sample === sample && p.property === name && p.outcome.is === "value",
	);

/** The determinations that a part comes from. */
const sources: Readonly<Record<GramPart, readonly PropertyName[]>> = {
	moisture: ["moisture"],
	"total ash": ["total ash"],
	"volatile matter": ["volatile matter"],
	"fixed carbon": ["total ash", "volatile matter"],
};

function restsOn(
	properties: readonly CharProperty[],
	sample: string,
	part: GramPart,
): ShareOfGram["rests"] {
	const own = sources[part].flatMap(
		(name) => find(properties, sample, name) ?? [],
	);
	if (own.some((p) => p.agreement.is === "beyond the limit"))
		return "on disagreeing ones";
	return own.some((p) => p.covers === "one determination")
		? "once"
		: "on agreeing determinations";
}

function shareOf(
	properties: readonly CharProperty[],
	sample: string,
	part: GramPart,
	basis: GramOfChar["basis"],
): ShareOfGram[] {
	const found = find(properties, sample, part);
	if (found === undefined) return [];
	const own = found.outcome.quantity as Quantity<"ratio">;
	const water = find(properties, sample, "moisture");
	if (part === "moisture" && basis === "dry") return [];
	const share = (
		part === "moisture" || basis === "dry" || water === undefined
			? own
			: times(
					own,
					minus(exactRatio(1), water.outcome.quantity as Quantity<"ratio">),
				)
	).to("%");
	const { lower, upper } = expandedUncertainty(share);
	return [
		{
			part,
			share,
			rests: restsOn(properties, sample, part),
			interval: { low: lower, high: upper },
		},
	];
}

/**
 * What is in a gram of each char: moisture, ash, volatile matter, fixed carbon (by difference), all of one gram. As weighed, the contents of the dry char are multiplied by 1 - W.
 */
export function gramsOfChar(
	properties: readonly CharProperty[],
): readonly GramOfChar[] {
	const samples = [...new Set(properties.map((p) => p.sample))];
	const basis = samples.every(
		(sample) => find(properties, sample, "moisture") !== undefined,
	)
		? "as weighed"
		: "dry";
	return samples.map((sample) => ({
		sample,
		basis,
		shares: gramParts.flatMap((part) =>
			shareOf(properties, sample, part, basis),
		),
	}));
}

/** A share as people read it, to one digit of half of its interval; where its determinations disagree the interval alone, since no mean of theirs is to be leant on. */
export function shareText({ share, rests, interval }: ShareOfGram): string {
	const { low, high } = interval;
	const decimals = Math.min(2, Math.max(0, decimalsFor((high - low) / 2) - 1));
	const round = (x: number): string => fixed(x, decimals);
	if (rests === "on disagreeing ones")
		return `${round(Math.max(0, low))} to ${round(Math.min(100, high))} %`;
	return `${round(share.in("%"))} %${rests === "once" ? " (determined once)" : ""}`;
}
