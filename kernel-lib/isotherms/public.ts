/** Isotherms: points of a trial with their linked errors, curves fitted to them, and what the curves say. */

export { averagedTable } from "./averaged-uptake";
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
export type { FitMethod, IsothermEstimate, IsothermFit } from "./fit-result";
export { type FitTables, fitTables } from "./fit-tables";
export { fitIsotherm, type IsothermFitOptions } from "./isotherm-fit";
export { isothermPoints } from "./isotherm-points";
export { type PlainPointOptions, plainPoints } from "./plain-points";
export type {
	BalanceLine,
	IsothermPoint,
	IsothermPoints,
	LeftOut,
	OwnErrors,
	SharedEffect,
} from "./points";
export {
	type IsothermRanking,
	type RankedIsotherm,
	type RankingOptions,
	rankIsotherms,
} from "./ranking";
export type { RepeatedWay, Repeats } from "./straight-lines/repeated-ways";
export {
	type RepeatOptions,
	repeatTrial,
	type TrialRepeats,
} from "./straight-lines/repeats";
export {
	type StraightLine,
	type StraightLineForm,
	straightLines,
} from "./straight-lines/straight-lines";
export {
	type WaysCompared,
	waysCompared,
} from "./straight-lines/ways-compared";
export { type UptakeAtResidue, uptakeAtResidue } from "./uptake-at-residue";
