import { type TrialSettings, usualSettings } from "../bench";
import {
	exact,
	input,
	kept,
	named,
	plus,
	type Quantity,
	rectangular,
	scaled,
	stated,
	times,
} from "../quantity";

/**
 * The smallest titre that can be distinguished from zero: about one drop, twice the end-point error. A titre below it is a bound, not a value.
 * Common practice, no source.
 */
export const detectionLimit: Quantity<"volume"> = input(
	"volume",
	0.05,
	"mL",
	exact,
	{
		symbol: "V_{det}",
		meaning: "smallest titre that can be distinguished from zero",
		source: stated("one drop of a burette; common practice, no source"),
	},
);

/**
 * A titre, less its blank, in which nothing was seen: anything between nothing and the detection limit is as likely, never less than nothing.
 *
 * @param where tells apart the titrations of which nothing is known
 */
export function unseenTitre(where: string): Quantity<"volume"> {
	const half = scaled(detectionLimit, 0.5);
	const anywhere = input("ratio", 0, "1", rectangular(1), {
		symbol: "z",
		meaning:
			"where an unseen titre lies between nothing and the detection limit",
		source: stated("nothing was seen; all values are equally likely"),
		scope: "reading",
		component: where,
	});
	return named(
		plus(half, times(half, anywhere)),
		"V_{t}",
		"titre too small to be seen",
	);
}

/** A displacement is known to this share of itself, all values equally likely: 0.5 mL/g to 0.1. Our guess. */
export const displacementWithin = 0.2;

/** Liquid that a gram of char displaces when a volume is made up with the char in the flask; one and the same error for all flasks. */
export function displacementOf(
	millilitresPerGram: number,
): Quantity<"volumePerMass"> {
	const within = displacementWithin * millilitresPerGram;
	const usual = millilitresPerGram === usualSettings.displacement;
	return input(
		"volumePerMass",
		millilitresPerGram,
		"mL/g",
		within === 0 ? exact : rectangular(within),
		{
			symbol: "d_{char}",
			meaning: "liquid displaced by a gram of char",
			source: stated(
				usual
					? "about 0.5 mL/g, within 0.1; common practice, no source"
					: "set when the sheet was read; taken as known to a fifth of itself",
			),
		},
	);
}

/** The same of a trial, by its settings: one input for all its flasks. */
export const displacementIn: (
	settings: Pick<TrialSettings, "displacement">,
) => Quantity<"volumePerMass"> = kept(({ displacement }) =>
	displacementOf(displacement),
);
