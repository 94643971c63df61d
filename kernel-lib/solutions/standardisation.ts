import { named, per, type Quantity, scaled, times } from "../quantity";
import { molarMass } from "../substances";
import { titrimetric } from "./redox";

function equivalents(substance: string): number {
	return titrimetric(substance).titrimetry.equivalents;
}

/**
 * Concentration of the titrant in the burette from an aliquot of a standard: c_t = (z_s/z_t) c_s V_a / V_t.
 * One iodate or dichromate frees three I2, which take six thiosulfate.
 *
 * @param titre mean titre, blank taken off
 * @throws ProblemError for a substance without iodometric equivalents on record
 */
export function titrantConcentration(
	titrant: string,
	standard: string,
	standardConcentration: Quantity<"concentration">,
	aliquot: Quantity<"volume">,
	titre: Quantity<"volume">,
): Quantity<"concentration"> {
	return per(
		scaled(
			times(standardConcentration, aliquot),
			equivalents(standard) / equivalents(titrant),
		),
		titre,
	);
}

/** Concentration of what is in the aliquot from the titrant in the burette: c_a = (z_t/z_a) c_t V_t / V_a. For iodine c(I2) = c_t V_t / (2 V_a). */
export function aliquotConcentration(
	analyte: string,
	titrant: string,
	titrantConcentration: Quantity<"concentration">,
	aliquot: Quantity<"volume">,
	titre: Quantity<"volume">,
): Quantity<"concentration"> {
	return per(
		scaled(
			times(titrantConcentration, titre),
			equivalents(titrant) / equivalents(analyte),
		),
		aliquot,
	);
}

/** Concentration of a weighed solid made up to a volume: c = m P / (M V). */
export function weighedConcentration(
	formula: string,
	mass: Quantity<"mass">,
	purity: Quantity<"ratio">,
	volume: Quantity<"volume">,
): Quantity<"concentration"> {
	return named(
		per(per(times(mass, purity), molarMass(formula)), volume),
		"c",
		`concentration of the ${formula} weighed`,
	);
}
