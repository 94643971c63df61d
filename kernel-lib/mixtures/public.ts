/** Waters that hold more than one solute: what each leaves of the char to the others. */

export {
	doseInMixture,
	type MixtureDose,
} from "./dose-in-mixture";
export { mixtureCurves } from "./mixture-curves";
export type { MixtureUptakes } from "./mixture-uptakes";
export { readSolute, type SoluteTable } from "./read-solute";
export type { Rule, Solute } from "./single";
