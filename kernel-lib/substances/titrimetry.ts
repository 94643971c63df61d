import { isSubstance, substanceNamed, substancesIn } from "./search";
import type { Titrimetry } from "./substance";

/** What a solution is there for in an iodine titration. */
export type Role = "iodine" | "thiosulfate" | "other";

/** The part of a substance in an iodometric titration; "none" for one that has no part, or is not on the list. */
export function titrimetryOf(substance: string): Titrimetry | "none" {
	const found = substanceNamed(substance);
	return found.is === "known" ? found.substance.titrimetry : "none";
}

/** Tincture or povidone iodine, whose percentage is not a concentration of iodine in iodide. */
export function isPreparation(written: string): boolean {
	return substancesIn(written).some(
		(s) => s.is === "known" && s.substance.name === "iodine preparation",
	);
}

/** The usual name of a substance of the titrations; any other as written. A medical preparation of iodine is iodine once its concentration was measured. */
export function titrimetricName(written: string): string {
	if (isPreparation(written)) return "iodine";
	const found = substanceNamed(written);
	return found.is === "known" && found.substance.titrimetry !== "none"
		? found.substance.name
		: written;
}

export function roleOf(substance: string): Role {
	const titrimetry = titrimetryOf(substance);
	return titrimetry === "none" || titrimetry.role === "standard"
		? "other"
		: titrimetry.role;
}

/** A substance that is there to standardise thiosulfate against. */
export function isTitrimetricStandard(substance: string): boolean {
	const titrimetry = titrimetryOf(substance);
	return titrimetry !== "none" && titrimetry.role === "standard";
}

/** Thiosulfate without a word on its water: its grams may count either salt. */
export function isThiosulfateOfEitherSalt(substance: string): boolean {
	return isSubstance(substance, "sodium thiosulfate");
}
