/** Isotherms: the catalogue, and what a run with many doses says about them; from there to doses (`dose`), temperature series (`temperature`) and waters with several solutes (`mixtures`). */
export * as dose from "./dose";
export {
	type FitMethod,
	fitIsotherm,
	fitIsothermTogether,
	type IsothermEstimate,
	type IsothermFit,
	type IsothermFitOptions,
	type SharedParameterOptions,
} from "./isotherm-fit";
export {
	type BalanceLine,
	type IsothermPoint,
	type IsothermPoints,
	isothermPoints,
	type LeftOut,
	type OwnErrors,
	type PointOptions,
	plainPoints,
	pointTable,
	type SharedEffect,
} from "./isotherm-points";
export * from "./isotherms";
export * as mixtures from "./mixtures";
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
export { fitTable, parameterTable, residualTable } from "./tables";
export * as temperature from "./temperature";
export { type UptakeAtResidue, uptakeAtResidue } from "./uptake-at-residue";
