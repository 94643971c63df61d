/** Treatments against their controls: whether there are doses enough, the comparison, its tables, and what would tell. */

export { atSeveralResidues } from "./at-several-residues";
export { compareTreatments } from "./compare-treatments";
export { type CompareOptions, marginOf } from "./settings";
export {
	type DosesOfTreatment,
	type SeveralDoses,
	severalDoses,
} from "./several-doses";
export { residueOf } from "./stated-residue";
export { comparisonTable, groupTable, methodTable, nextSteps } from "./tables";
export type * from "./verdict";
