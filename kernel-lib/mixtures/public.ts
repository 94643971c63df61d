/** Waters that hold more than one solute: what each leaves of the char to the others. */

export {
	doseInMixture,
	type MixtureDose,
	mixtureTable,
} from "./dose-in-mixture";
export { mixtureCurves } from "./mixture-curves";
export { type MixtureUptakes, residuesInMixture } from "./mixture-uptakes";
export type { Rule, Solute } from "./single";
