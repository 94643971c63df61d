import {
	exact,
	input,
	nowhere,
	type ProblemPlace,
	per,
	problem,
	type Quantity,
	stated,
	throwProblems,
	times,
} from "../quantity";
import {
	type Substance,
	substanceNamed,
	substances,
	type Titrimetry,
	titrimetryOf,
} from "../substances";

/** A substance of the list that has a part in an iodometric titration. */
export interface Titrimetric {
	readonly substance: Substance;
	readonly titrimetry: Titrimetry;
}

/** @throws ProblemError for a substance that has no part in an iodometric titration */
export function titrimetric(
	name: string,
	where: ProblemPlace = nowhere,
): Titrimetric {
	const found = substanceNamed(name);
	if (found.is === "known" && found.substance.titrimetry !== "none")
		return {
			substance: found.substance,
			titrimetry: found.substance.titrimetry,
		};
	throwProblems([
		problem(
			"substance-unknown",
			where,
			`the substance "${name}"`,
			`one whose iodometric equivalents are on record: ${substances
				.filter((s) => s.titrimetry !== "none")
				.map((s) => s.name)
				.join(", ")}`,
			"Name one of these, or give its concentration in mol/L.",
		),
	]);
	throw new Error("unreachable");
}

export function isTitrimetric(name: string): boolean {
	return titrimetryOf(name) !== "none";
}

/**
 * Equivalents per mole in iodometry, exact: iodine 2, thiosulfate 1, iodate 6, dichromate 6.
 * @throws ProblemError for a substance that is not on record
 */
export function equivalentsPerMole(
	name: string,
): Quantity<"equivalentsPerAmount"> {
	const { species, equivalents, halfReaction } = titrimetric(name).titrimetry;
	return input("equivalentsPerAmount", equivalents, "eq/mol", exact, {
		symbol: `z_{${species}}`,
		meaning: `equivalents per mole of ${species}`,
		source: stated(halfReaction),
	});
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
