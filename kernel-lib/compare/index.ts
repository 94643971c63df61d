export {
	type AtResidueOptions,
	type ComparisonAtResidue,
	compareAtResidue,
} from "./compare-at-residue";
export {
	type CompareOptions,
	compareTreatments,
	marginOf,
} from "./compare-treatments";
export { requireDoses } from "./require-doses";
export {
	type DosesOfTreatment,
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
