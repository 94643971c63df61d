/** Waters that hold more than one solute: what each leaves of the char to the others. */
export {
	doseInMixture,
	type MixtureDose,
	type MixtureUptakes,
	mixtureCurves,
	mixtureTable,
	residuesInMixture,
	uptakesInMixture,
} from "./mixture";
export type { Rule, Solute } from "./single";
