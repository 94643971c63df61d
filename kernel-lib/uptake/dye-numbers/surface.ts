import type { Trial } from "../../bench";
import {
	exact,
	fixed,
	input,
	meanOf,
	named,
	per,
	type Quantity,
	stated,
	type Table,
	type TableCell,
	table,
	times,
} from "../../quantity";
import { isSubstance, molarMass } from "../../substances";
import { byTreatment, uptakes } from "../uptakes";

/** Areas that a molecule of methylene blue is said to cover, nm². All from memory; they differ in how the molecule lies. */
export const methyleneBlueAreas = {
	least: 1.08,
	usual: 1.3,
	most: 1.97,
} as const;

/** Avogadro's constant, 1/mol (SI, exact), times 1e-18 m²/nm². */
const squareMetresPerMole = 6.02214076e23 * 1e-18;

/**
 * Surface that the dye would cover in one layer, S = (q/M) N_A a.
 *
 * @param uptake of dye (dry dye, C16H18ClN3S), at the plateau of its isotherm
 * @param area that a molecule covers, nm²
 */
export function dyeSurface(
	uptake: Quantity<"uptake">,
	area: number = methyleneBlueAreas.usual,
): Quantity<"areaPerMass"> {
	const perMole = input(
		"areaPerAmount",
		area * squareMetresPerMole,
		"m2/mol",
		exact,
		{
			symbol: "N_A a",
			meaning: `area of a mole of molecules of ${area} nm² each`,
			source: stated(`${area} nm² a molecule; from memory`),
		},
	);
	return named(
		times(per(uptake, molarMass("C16H18ClN3S")), perMole),
		"S_{MB}",
		`surface that methylene blue would cover at ${area} nm² a molecule`,
	);
}

/**
 * Surface that the methylene blue would cover in one layer (m²/g) for each treatment, S = (q/M) N_A a, from the mean uptake of its flasks and the range of areas that a molecule is said to cover (from memory); a table
 * without rows where nothing took up methylene blue. An order of magnitude, no measurement of surface.
 * @throws ProblemError as `residue.residues` does
 * @example
 * uptake.methyleneBlueSurface(trial).rows.length // => 0
 */
export function methyleneBlueSurface(trial: Trial): Table {
	const blue = uptakes(trial).filter(
		(u) => u.uptake.is === "value" && isSubstance(u.probe, "methylene blue"),
	);
	const shown = (q: Quantity<"uptake">, area: number): string =>
		fixed(dyeSurface(q, area).in("m2/g"), 0);
	const { least, usual, most } = methyleneBlueAreas;
	return table(
		"Surface that the methylene blue would cover",
		[
			"treatment",
			"mean uptake (mg/g)",
			`at ${usual} nm² a molecule (m²/g)`,
			`from ${least} to ${most} nm² (m²/g)`,
		],
		[...byTreatment(blue)].map(([treatment, flasks]): TableCell[] => {
			const mean = meanOf(flasks.map((u) => u.computedUptake));
			return [
				treatment,
				mean.to("mg/g"),
				shown(mean, usual),
				`${shown(mean, least)} to ${shown(mean, most)}`,
			];
		}),
		[
			"An order of magnitude only: S = (q/M) N_A a, if the molecules lay in one layer and the char were full. One dose does not show that it was full: only the plateau of an isotherm does.",
			"Methylene blue does not reach pores narrower than about 1.3 nm, dimers lie otherwise than single molecules, and the areas are from memory: not to be compared with a surface by gas adsorption.",
			"The number of a powder sold by weight counts its water as dye unless its strength was corrected for it.",
		],
	);
}
