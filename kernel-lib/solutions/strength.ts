import { plainNumber, type Quantity, quoted } from "../quantity";
import { isTitrimetricStandard, roleOf } from "../substances";
import { likelySlip } from "./likely-slip";

/** Numbers that cannot all be right, and what most likely made them so, each in full sentences; both "" where nothing contradicts. */
export interface Contradiction {
	readonly found: string;
	readonly likelyCause: string;
}

export const nothingContradicts: Contradiction = { found: "", likelyCause: "" };

/** How many times a strength found may lie above or below the one that the sheet calls nominal. A decision of ours: wide enough for aged thiosulfate, narrower than normality for molarity. */
const furthestFromNominal = 1.5;

/**
 * The strongest that such a solution can be, mol/L: about what dissolves (iodine in strong potassium iodide), from memory; and the weakest thiosulfate whose end point can be seen
 * with starch. Decisions of ours.
 */
const strongest = {
	iodine: 2,
	thiosulfate: 4.5,
	/** Iodate and dichromate. */
	standard: 0.6,
	other: 25,
} as const;
const weakestTitrant = 5e-4;

const roughly = (x: number): string => plainNumber(Number(x.toPrecision(3)));

function farFromNominal(
	name: string,
	found: number,
	nominal: number,
): Contradiction {
	const ratio = nominal / found;
	if (Math.max(ratio, 1 / ratio) <= furthestFromNominal)
		return nothingContradicts;
	const times = roughly(Math.max(ratio, 1 / ratio));
	const slip = likelySlip(ratio);
	return {
		found: `${quoted(name)} was found to be ${roughly(found)} mol/L by its standardisation and is nominally ${roughly(nominal)} mol/L, ${times} times as ${ratio > 1 ? "much" : "little"}.`,
		likelyCause: `Likely cause: ${slip === "" ? "another solution, or a wrong aliquot or standard" : slip}. Look at the nominal concentration, the strength of the standard, the aliquot and the titres, and mend the one that is wrong.`,
	};
}

function beyondPossible(
	name: string,
	substance: string,
	found: number,
): Contradiction {
	const role = roleOf(substance);
	const most = isTitrimetricStandard(substance) ? "standard" : role;
	if (found > strongest[most])
		return {
			found: `${quoted(name)} would hold ${roughly(found)} mol/L, more than dissolves (about ${strongest[most]} mol/L at most).`,
			likelyCause:
				"Likely cause: the unit at the head of its column (mmol/L for mol/L, mg/L for g/L), the volume it was made up to, or the aliquot of its standardisation.",
		};
	return role === "thiosulfate" && found < weakestTitrant
		? {
				found: `${quoted(name)} would be ${roughly(found)} mol/L, too weak for an end point that can be seen (about ${weakestTitrant} mol/L at least).`,
				likelyCause:
					"Likely cause: the unit at the head of its column (mol/L for mmol/L), the volume it was made up to, or the aliquot of its standardisation.",
			}
		: nothingContradicts;
}

/** Why the strength of a solution cannot be right, by what dissolves and by what the sheet itself calls nominal. */
export function strengthContradiction(
	name: string,
	substance: string,
	concentration: Quantity<"concentration">,
	nominal: readonly Quantity<"concentration">[],
): Contradiction {
	const found = concentration.in("mol/L");
	const beyond = beyondPossible(name, substance, found);
	if (beyond.found !== "" || nominal.length === 0) return beyond;
	return farFromNominal(name, found, nominal[0].in("mol/L"));
}
