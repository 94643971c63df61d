/** Isotherms: the catalogue, and what a run with many doses says about them; from there to doses (`dose`), temperature series (`temperature`) and waters with several solutes (`mixtures`). */

export { requireAlike } from "./alike";
export {
	type AveragedUptake,
	averagedTable,
	averagedUptake,
} from "./averaged-uptake";
export { meet } from "./balance-line";
export * from "./catalogue/index";
export {
	nonAdsorbable,
	withNonAdsorbable,
} from "./catalogue/with-non-adsorbable";
export { coverAt } from "./deviations";
export { fitKind, requireFit } from "./doors";
export type {
	FitMethod,
	IsothermEstimate,
	IsothermFit,
} from "./fit-result";
export { type FitTables, fitTables } from "./fit-tables";
export {
	combinedDegreesOfFreedom,
	commonConfidence,
	confidenceOption,
	confidenceText,
	twoSided,
	usualConfidence,
} from "./intervals";
export {
	fitIsotherm,
	fitIsothermTogether,
	type IsothermFitOptions,
	type SharedParameterOptions,
} from "./isotherm-fit";
export { isothermPoints, pointsOfUptakes } from "./isotherm-points";
export { lazily } from "./lazily";
export { type PlainPointOptions, plainPoints } from "./plain-points";
export type {
	BalanceLine,
	IsothermPoint,
	IsothermPoints,
	LeftOut,
	OwnErrors,
	SharedEffect,
} from "./points";
export { dividedBy } from "./points-by-factor";
export { molarMassOf, molarMassProblems } from "./probe-molar-mass";
export { probeOf } from "./probe-words";
export {
	type IsothermRanking,
	isothermsWithoutConstants,
	type RankedIsotherm,
	type RankingOptions,
	rankIsotherms,
} from "./ranking";
export type { SharedShift } from "./shared-errors";
export type {
	RepeatedWay,
	Repeats,
} from "./straight-lines/repeated-ways";
export {
	type RepeatOptions,
	repeatTrial,
	type TrialRepeats,
} from "./straight-lines/repeats";
export {
	type StraightLine,
	type StraightLineForm,
	straightLineForms,
	straightLines,
} from "./straight-lines/straight-lines";
export {
	type WaysCompared,
	waysCompared,
} from "./straight-lines/ways-compared";
export { intervalText } from "./tables";
export { type UptakeAtResidue, uptakeAtResidue } from "./uptake-at-residue";
export { inDigits, percent, roughly } from "./words";
