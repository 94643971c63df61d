import { fixed, type Table, table } from "../../quantity";
import type { NumberOfDosages } from "./number-of-dosages";

/** Area that one iodine molecule is taken to cover, nm2; the two figures that are used, from memory. How it packs in a pore is not known. */
const coveredArea = { low: 0.21, high: 0.4 } as const;

/** Molecules of I2 in a milligram, over 1e18, so that nm2 become m2: 1e-3 g / 253.809 g/mol x 6.02214076e23 /mol / 1e18. */
const moleculesPerMilligram = (1e-3 / 253.809) * 6.02214076e5;

/**
 * What area (m2/g) the iodine would cover if it lay in one layer, as a range from the areas that are assumed for a molecule. A rule of thumb and no measurement of surface: the caveats stand in the table's notes and
 * belong to the figure.
 */
export function roughSurfaceAreas(numbers: readonly NumberOfDosages[]): Table {
	return table(
		"Rough area that the iodine would cover in one layer",
		["treatment", "uptake at 0.02 N (mg/g)", "area (m²/g)"],
		numbers.map((n) => {
			if (n.is === "not available")
				return [n.treatment, "not available", n.because];
			const [low, high] = [
				n.line.low * coveredArea.low,
				n.line.high * coveredArea.high,
			].map((a) => Number((a * moleculesPerMilligram).toPrecision(2)));
			return [
				n.treatment,
				fixed(n.line.value.in("mg/g"), 0),
				`somewhere between ${low} and ${high}`,
			];
		}),
		[
			`This is not a surface area. It supposes one layer, and ${coveredArea.low} to ${coveredArea.high} nm² for a molecule, which has not been observed in a pore.`,
			"Iodine also condenses in narrow pores, reacts with the char, and does not enter the narrowest; a char with acids or ash left in it takes up iodine without any surface. Gas adsorption measures surface; this does not.",
		],
	);
}
