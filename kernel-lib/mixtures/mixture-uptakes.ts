import { doseProblems } from "../dose";
import { uptakeAt } from "../isotherms";
import { throwProblems } from "../quantity";
import type { Shared } from "./ideal-adsorbed-solution";
import { afterDose, atResidues, singles } from "./share";
import {
	checkedSolutes,
	type Rule,
	type Solute,
	type WeighedSolute,
} from "./single";

/** Uptakes in a mixture beside what each solute would show alone at the same residue. */
export interface MixtureUptakes {
	readonly rule: Rule;
	readonly solutes: readonly {
		readonly name: string;
		/** mg/L. */
		readonly residue: number;
		/** mg/g. */
		readonly uptake: number;
		readonly uptakeAlone: number;
		/** True where its own isotherm is leaned on beyond the residues that were measured. */
		readonly extrapolating: boolean;
	}[];
}

/**
 * What the char holds of each solute at given residues of all of them (mg/L, above 0, in the order of the solutes).
 *
 * @throws ProblemError for solutes that make no mixture; for an isotherm without a spreading pressure
 */
export function uptakesInMixture(
	rule: Rule,
	given: readonly Solute[],
	residues: readonly number[],
): MixtureUptakes {
	const solutes = checkedSolutes(rule, given);
	return mixtureUptakes(
		rule,
		solutes,
		atResidues(rule, singles(solutes), residues),
	);
}

function mixtureUptakes(
	rule: Rule,
	solutes: readonly WeighedSolute[],
	found: Shared,
): MixtureUptakes {
	return {
		rule,
		solutes: solutes.map((s, i) => {
			const residue = found.residues[i];
			return {
				name: s.name,
				residue,
				uptake: found.uptakes[i],
				uptakeAlone: uptakeAt(s.fit.isotherm, s.fit.theta, residue),
				extrapolating:
					found.alone[i] > s.fit.range.high || residue < s.fit.range.low,
			};
		}),
	};
}

/**
 * What a dose (g/L) leaves of each solute, and what the char then holds. @throws as `uptakesInMixture`
 */
export function residuesInMixture(
	rule: Rule,
	given: readonly Solute[],
	dose: number,
): MixtureUptakes {
	const solutes = checkedSolutes(rule, given);
	throwProblems(doseProblems([dose]));
	return mixtureUptakes(
		rule,
		solutes,
		afterDose(
			rule,
			singles(solutes),
			solutes.map((s) => s.start),
			dose,
		),
	);
}
