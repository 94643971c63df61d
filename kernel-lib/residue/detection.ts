import {
	exact,
	input,
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

/** Liquid that char displaces when a volume is made up with the char in the flask. Common practice, no source; the width is our guess. */
export const displacement: Quantity<"volumePerMass"> = input(
	"volumePerMass",
	0.5,
	"mL/g",
	{
		standardUncertainty: 0.1 / Math.sqrt(3),
		distribution: "rectangular",
		degreesOfFreedom: Number.POSITIVE_INFINITY,
	},
	{
		symbol: "d_{char}",
		meaning: "liquid displaced by a gram of char",
		source: stated("about 0.5 mL/g ± 0.1; common practice, no source"),
	},
);
