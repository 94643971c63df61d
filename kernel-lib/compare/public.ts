/** Treatments against their controls: whether there are doses enough, the comparison and its groups. */

export { atSeveralResidues } from "./at-several-residues";
export { compareTreatments } from "./compare-treatments";
export { groupTable } from "./group-table";
export { secondOpinionTable } from "./second-opinion";
export { type CompareOptions, marginOf } from "./settings";
export {
	type DosesOfTreatment,
	type SeveralDoses,
	severalDoses,
} from "./several-doses";
export { residueOf } from "./stated-residue";
export type * from "./verdict";
