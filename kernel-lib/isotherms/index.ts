/** Isotherms: the catalogue, and what a run with many doses says about them; from there to doses (`dose`), temperature series (`temperature`) and waters with several solutes (`mixtures`). */

export { meet } from "./balance-line";
export * from "./catalogue/index";
export {
	nonAdsorbable,
	withNonAdsorbable,
} from "./catalogue/with-non-adsorbable";
export { coverAt } from "./deviations";
export {
	combinedDegreesOfFreedom,
	type FitMethod,
	fitIsotherm,
	fitIsothermTogether,
	type IsothermEstimate,
	type IsothermFit,
	type IsothermFitOptions,
	type SharedParameterOptions,
	twoSided,
} from "./isotherm-fit";
export {
	type BalanceLine,
	type IsothermPoint,
	type IsothermPoints,
	isothermPoints,
	type LeftOut,
	type OwnErrors,
	plainPoints,
	pointsOfUptakes,
	pointTable,
	type SharedEffect,
} from "./isotherm-points";
export { pointsOfTreatment } from "./one-treatment";
export {
	type AveragedUptake,
	averagedUptake,
	type IsothermRanking,
	isothermsWithoutConstants,
	type RankedIsotherm,
	type RankingOptions,
	rankIsotherms,
	rankingTable,
} from "./ranking";
export { checksTable, quotedTable } from "./report-tables";
export type { SharedShift } from "./shared-errors";
export {
	type StraightLine,
	type StraightLineForm,
	straightLineForms,
	straightLines,
	straightLineTable,
} from "./straight-lines";
export {
	fitTable,
	intervalText,
	parameterTable,
	residualTable,
} from "./tables";
export { type UptakeAtResidue, uptakeAtResidue } from "./uptake-at-residue";
export { inDigits, percent, roughly } from "./words";
