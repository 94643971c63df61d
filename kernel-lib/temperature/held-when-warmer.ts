import { type FromFits, fromFits } from "../dose";
import { type UptakeAtResidue, uptakeAt, uptakeAtResidue } from "../isotherms";
import type { FitAtTemperature } from "./fit-at-temperature";

/** What the char holds at one residue at each temperature, and how the warmest compares with the coldest. */
export type HeldWhenWarmer =
	| {
			readonly is: "compared";
			readonly probe: string;
			/** mg/L: the middle, on the logarithm, of the residues that the flasks of every temperature reached. */
			readonly residue: number;
			/** From cold to warm. */
			readonly at: readonly {
				readonly kelvin: number;
				readonly uptake: UptakeAtResidue;
			}[];
			/** Uptake at the warmest temperature over that at the coldest; what both share counts once. */
			readonly ratio: FromFits;
	  }
	| { readonly is: "not compared"; readonly because: string };

/** The middle on the logarithm, in two digits where that lies between the ends too: it is said in two. */
function roundedInside(low: number, high: number): number {
	const middle = Math.sqrt(low * high);
	const rounded = Number(middle.toPrecision(2));
	return rounded > low && rounded < high ? rounded : middle;
}

/** Compares the uptakes of several temperatures at one residue. */
export function heldWhenWarmer(
	series: readonly FitAtTemperature[],
): HeldWhenWarmer {
	const sorted = [...series].sort((a, b) => a.kelvin - b.kelvin);
	const cold = sorted[0];
	const warm = sorted[sorted.length - 1];
	if (cold === undefined || !(warm.kelvin > cold.kelvin))
		return { is: "not compared", because: "there is one temperature only" };
	const low = Math.max(...sorted.map(({ fit }) => fit.range.low));
	const high = Math.min(...sorted.map(({ fit }) => fit.range.high));
	if (!(low > 0 && low < high))
		return {
			is: "not compared",
			because:
				"the flasks of the temperatures reached no residue that all of them share",
		};
	const residue = roundedInside(low, high);
	return {
		is: "compared",
		probe: cold.fit.points.probe,
		residue,
		at: sorted.map(({ kelvin, fit }) => ({
			kelvin,
			uptake: uptakeAtResidue(fit, residue)[0],
		})),
		ratio: fromFits(
			[cold.fit, warm.fit],
			"",
			([colder, warmer]) =>
				uptakeAt(warm.fit.isotherm, warmer, residue) /
				uptakeAt(cold.fit.isotherm, colder, residue),
		),
	};
}
