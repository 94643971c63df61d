/** Isotherms: points of a trial with their linked errors, curves fitted to them, and what the curves say. */

export { isothermPoints } from "./isotherm-points";
export { pointsOfTreatment } from "./points-of-treatment";
export { type PlainPointOptions, plainPoints } from "./plain-points";
export type {
	BalanceLine,
	IsothermPoint,
	IsothermPoints,
	LeftOut,
	OwnErrors,
	SharedEffect,
} from "./points";
export { pointTable } from "./point-table";
export {
	betLiquid,
	dualSiteLangmuir,
	dubininRadushkevich,
	freundlich,
	henry,
	type Isotherm,
	type IsothermParameter,
	langmuir,
	type OwnCurve,
	ownIsotherm,
	type Plateau,
	type PotentialForm,
	redlichPeterson,
	sips,
	temkin,
	toth,
} from "./catalogue/index";
export { withNonAdsorbable } from "./catalogue/with-non-adsorbable";
export {
	fitIsotherm,
	fitIsothermTogether,
	type IsothermFitOptions,
	type SharedParameterOptions,
} from "./isotherm-fit";
export type { FitMethod, IsothermEstimate, IsothermFit } from "./fit-result";
export { fitTable, parameterTable, residualTable } from "./tables";
export { checksTable, quotedTable } from "./report-tables";
export { type UptakeAtResidue, uptakeAtResidue } from "./uptake-at-residue";
export {
	type IsothermRanking,
	type RankedIsotherm,
	type RankingOptions,
	rankIsotherms,
	rankingTable,
} from "./ranking";
export { averagedTable } from "./averaged-uptake";
export {
	type StraightLine,
	type StraightLineForm,
	straightLines,
	straightLineTable,
} from "./straight-lines/straight-lines";
export type { RepeatedWay, Repeats } from "./straight-lines/repeated-ways";
export {
	type RepeatOptions,
	repeatTrial,
	type TrialRepeats,
} from "./straight-lines/repeats";
