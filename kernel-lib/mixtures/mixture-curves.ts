import { type RemovalCurve, removalCurve } from "../dose";
import { listed, notKnown } from "../quantity";
import { afterDose, singles } from "./share";
import { checkedSolutes, type Rule, type Solute } from "./single";
import { besideNames, placeOf } from "./which-solute";

/**
 * Removal of one solute against dose in the mixture, and what its isotherm alone would have promised, to be drawn beside it.
 * @example
 * const points = isotherms.plainPoints("oak char", [10, 30, 90, 190], [50, 75, 90, 95]);
 * const fit = isotherms.fitIsotherm(isotherms.langmuir, points);
 * // two solutes that behave alike are one: 100 mg/L together, of which 10 are left
 * const solutes = ["first", "second"].map((name) => ({ name, fit, molarMass: 100, start: 50 }));
 * mixtures.mixtureCurves("competitive Langmuir", solutes, "first", [1.8]).mixture.at[0].removal // => 90
 */
export function mixtureCurves(
	rule: Rule,
	given: readonly Solute[],
	solute: string,
	doses?: readonly number[],
): { readonly mixture: RemovalCurve; readonly alone: RemovalCurve } {
	const solutes = checkedSolutes(rule, given);
	const k = placeOf(solutes, solute);
	const { fit, start } = solutes[k];
	const alone = removalCurve(fit, {
		start,
		name: `${solute} alone`,
		...(doses === undefined ? {} : { doses }),
	});
	const separate = singles(solutes);
	const starts = solutes.map((s) => s.start);
	return {
		alone,
		mixture: {
			kind: "removal curve",
			name: `${solute} beside ${listed(besideNames(solutes, k))}`,
			from: "mixture",
			start,
			confidence: fit.confidence,
			at: alone.at.map(({ dose }) => {
				const { residues, alone: leaned } = afterDose(
					rule,
					separate,
					starts,
					dose,
				);
				const unknown = notKnown("no flask of the mixture was measured");
				return {
					dose,
					residue: residues[k],
					removal: 100 * (1 - residues[k] / start),
					low: unknown,
					high: unknown,
					extrapolating: solutes.some(
						(s, i) =>
							leaned[i] > s.fit.range.high || residues[i] < s.fit.range.low,
					),
				};
			}),
		},
	};
}
