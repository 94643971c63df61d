export { compareAtOwnResidues } from "./at-own-residues";
export { atSeveralResidues } from "./at-several-residues";
export { compareAtStatedResidue } from "./at-stated-residue";
export { compareTreatments } from "./compare-treatments";
export { type Portions, portionsOf } from "./portions";
export { missingDoses, requireDoses } from "./require-doses";
export { type CompareOptions, marginOf } from "./settings";
export {
	type DosesOfTreatment,
	dosesOf,
	type SeveralDoses,
	severalDoses,
} from "./several-doses";
export { residueOf } from "./stated-residue";
export {
	comparisonTable,
	groupTable,
	methodTable,
	methodText,
	nextSteps,
} from "./tables";
export * from "./verdict";
