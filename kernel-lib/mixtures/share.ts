import {
	competitiveLangmuir,
	residuesInCompetition,
} from "./competitive-langmuir";
import {
	idealAdsorbedSolution,
	residuesInIdealSolution,
	type Shared,
} from "./ideal-adsorbed-solution";
import type { Rule, Single, WeighedSolute } from "./single";

/** The solutes as they behave alone, with the parameters of their fits or with others. */
export function singles(
	solutes: readonly WeighedSolute[],
	thetas: readonly Float64Array[] = solutes.map((s) => s.fit.theta),
): Single[] {
	return solutes.map((s, i) => ({
		isotherm: s.fit.isotherm,
		theta: thetas[i],
		molarMass: s.molarMass,
	}));
}

/** What is on the char at given residues (mg/L). */
export function atResidues(
	rule: Rule,
	given: readonly Single[],
	residues: readonly number[],
): Shared {
	return rule === "competitive Langmuir"
		? competitiveLangmuir(given, residues)
		: idealAdsorbedSolution(given, residues);
}

/** What a dose (g/L) leaves of each solute of a water that starts from so much of each (mg/L). */
export function afterDose(
	rule: Rule,
	given: readonly Single[],
	starts: readonly number[],
	dose: number,
): Shared {
	return rule === "competitive Langmuir"
		? residuesInCompetition(given, starts, dose)
		: residuesInIdealSolution(given, starts, dose);
}
