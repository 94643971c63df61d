import type { Observation } from "../observations";
import type { Looked, Sides } from "./sides";

const unlimited = (side: readonly Observation[]): string[] => [
	...new Set(
		side.flatMap(({ flask: { soakMass } }) =>
			soakMass.is === "not known" ? [soakMass.because] : [],
		),
	),
];

/** What a soak left in the char is weighed with it and takes up nothing. A limit that is known widens the interval; here stands what nothing limits, so that it is taken to be nothing. */
export function soakMass({ treated, untreated }: Sides): Looked {
	const [one, other] = [treated, untreated].map(unlimited);
	if (one.length + other.length === 0)
		return {
			is: "within",
			feigns: "nothing",
			treated: "limited, or none",
			untreated: "limited, or none",
		};
	const text = (side: readonly string[]): string =>
		side.length === 0
			? "limited, or none"
			: "that nothing of the soak is weighed with the char, for nothing limits it";
	return {
		is: "beyond",
		feigns: "nothing",
		treated: text(one),
		untreated: text(other),
	};
}
