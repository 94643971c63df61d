/** Treatments against their controls: whether there are doses enough, the comparison and its groups. */

export { atSeveralResidues } from "./at-several-residues";
export { chosenClaim } from "./claim";
export { compareTreatments } from "./compare-treatments";
export { groupTable } from "./group-table";
export { chosenMargin, marginOf, percentOfControl } from "./margin";
export { secondOpinionTable } from "./second-opinion";
export type { CompareOptions } from "./settings";
export {
	type DosesOfTreatment,
	type SeveralDoses,
	severalDoses,
} from "./several-doses";
export { residueOf } from "./stated-residue";
export type * from "./verdict";
