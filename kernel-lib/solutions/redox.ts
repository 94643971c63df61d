import { exact, input, per, type Quantity, stated, times } from "../quantity";
import { substanceOf, substances } from "./substances";

const known = new Map<string, Quantity<"equivalentsPerAmount">>(
	substances.map((s) => [
		s.name,
		input("equivalentsPerAmount", s.equivalents, "eq/mol", exact, {
			symbol: `z_{${s.formula}}`,
			meaning: `equivalents per mole of ${s.name}`,
			source: stated(s.halfReaction),
		}),
	]),
);

/**
 * Equivalents per mole in iodometry, exact: iodine 2, thiosulfate 1, iodate 6, dichromate 6.
 * @throws ProblemError for a substance that is not on record
 */
export function equivalentsPerMole(
	substance: string,
): Quantity<"equivalentsPerAmount"> {
	return known.get(
		substanceOf(substance).name,
	) as Quantity<"equivalentsPerAmount">;
}

/** Normality (eq/L) from a concentration (mol/L): N = z c. For thiosulfate the two are the same number, for iodine N is twice c(I2). */
export function normalityOf(
	concentration: Quantity<"concentration">,
	substance: string,
): Quantity<"normality"> {
	return times(concentration, equivalentsPerMole(substance));
}

/** Concentration (mol/L) from a normality (eq/L): c = N/z. */
export function molarityOf(
	normality: Quantity<"normality">,
	substance: string,
): Quantity<"concentration"> {
	return per(normality, equivalentsPerMole(substance));
}
