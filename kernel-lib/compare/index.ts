export {
	type CompareOptions,
	compareTreatments,
	marginOf,
} from "./compare-treatments";
export {
	comparisonTable,
	groupTable,
	methodTable,
	methodText,
	nextSteps,
} from "./tables";
export * from "./verdict";
