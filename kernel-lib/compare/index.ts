export { atSeveralResidues } from "./at-several-residues";
export { type Audited, type Finding, findingsOf } from "./audit";
export { chosenClaim } from "./claim";
export { compareCarried } from "./compare-carried";
export { compareOnIsotherms } from "./compare-on-isotherms";
export { compareTreatments } from "./compare-treatments";
export { unusualDecisions } from "./decisions";
export {
	differencePlaces,
	landmarksOf,
	placesApart,
	shownDifference,
} from "./difference-places";
export { requireComparison, requireVerdict } from "./doors";
export { groupTable } from "./group-table";
export { lossesOf, perGramOf, takesAs } from "./likeness";
export {
	type CharLot,
	charLots,
	commonFeedstock,
	feedstockText,
	type HighestLots,
	highestLots,
	type LotBasis,
	residuesAlike,
	unlikeFeedstocks,
} from "./lots";
export { chosenMargin, marginOf, percentOfControl } from "./margin";
export { threeMargins } from "./margin-for";
export { apartByDesign } from "./measured-slope";
export { mostComparisons, tooManyComparisons } from "./most-comparisons";
export type { DrawnFlask, Observation } from "./observations";
export type { Dosing, Missing, Obstacle } from "./obstacle";
export { batchesOf, contradicted } from "./obstacles";
export { type Portions, portionsOf } from "./portions";
export {
	firstReckoning,
	type Reckoned,
	type Reckoning,
	standardErrorOf,
	type WeighedFlask,
	weighedFlasks,
} from "./reckoning";
export { missingDoses, requireDoses } from "./require-doses";
export {
	type PairScatter,
	type Repetition,
	scatterOfPairs,
	scatterOfTrial,
	scatterTable,
} from "./scatter";
export { secondOpinionTable } from "./second-opinion";
export type { CompareOptions } from "./settings";
export {
	type DosesOfTreatment,
	dosesOf,
	type SeveralDoses,
	severalDoses,
} from "./several-doses";
export { significanceLevel } from "./significance";
export type { Slope } from "./slope";
export { residueOf, residueText } from "./stated-residue";
export { suspicionOf } from "./suspicion";
export { soaksRecorded } from "./units";
export * from "./verdict";
export type { Interval } from "./word";
export { type WordGround, wordAt } from "./word-at";
