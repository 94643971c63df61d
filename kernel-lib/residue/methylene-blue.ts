import { fixed, problem, type Quantity, throwProblems } from "../quantity";
import { isSubstance, molarMass } from "../substances";

/** Constant of 2 D = D2 for methylene blue in water near 25 °C, L/mol; published figures run from about 2000 to 6000. From memory. */
export const dimerConstant = 4000;

/**
 * Share of methylene blue that stands in dimers: c = m + 2 K m², share = 1 - m/c. Dimers absorb less at 664 nm and more at 610 nm, so that a line bends downwards where they matter.
 *
 * @param concentration mol/L of the dye
 * @throws ProblemError for a concentration below 0
 */
export function dimerShare(
	concentration: number,
	constant = dimerConstant,
): number {
	if (!(concentration >= 0 && constant >= 0))
		throwProblems([
			problem(
				"dimer-share",
				{ column: "concentration" },
				`${concentration} mol/L and a dimer constant of ${constant} L/mol`,
				"a concentration and a dimer constant that are not negative",
				"Look both up again.",
			),
		]);
	// (sqrt(1 + 8Kc) - 1)/(4K) over c, without the loss of digits at small c.
	return 1 - 2 / (1 + Math.sqrt(1 + 8 * constant * concentration));
}

/** From this share of dimers on a page warns. A decision of ours. */
const warnFrom = 0.05;

/** A sentence where so much of a dye in the cuvette stands in dimers that a straight line is in doubt; "" else and for other dyes. */
export function dimerCaution(
	probe: string,
	inCuvette: Quantity<"massConcentration">,
): string {
	if (!isSubstance(probe, "methylene blue")) return "";
	const molar = inCuvette.in("g/L") / molarMass("C16H18ClN3S").in("g/mol");
	const share = dimerShare(Math.max(0, molar));
	return share < warnFrom
		? ""
		: `About ${fixed(100 * share, 0)} % of the methylene blue in the cuvette stands in dimers, which absorb less at 664 nm: read it more dilute, or on a line of standards that reach as far and pass the test for a bend.`;
}
