export { balanceLadder } from "./balance-ladder";
export { figureHtml, figureMimeType } from "./bundle";
export { calibrationLine } from "./calibration-line";
export type {
	Arrow,
	Axis,
	Bar,
	Direction,
	Figure,
	FigureDescription,
	Interval,
	Layer,
	Point,
	Scale,
} from "./description";
export { differences } from "./differences";
export { type DoseAndRemovalOptions, doseAndRemoval } from "./dose-and-removal";
export { dryingCurve } from "./drying-curve";
export {
	type EstimatesOptions,
	estimatesAgainstTruth,
} from "./estimates-against-truth";
export { figure } from "./figure";
export { flasksAgainstControl } from "./flasks-against-control";
export { iodineNumberLine } from "./iodine-number-line";
export { isothermResiduals } from "./isotherm-residuals";
export { type IsothermFigureOptions, isotherms } from "./isotherms";
export {
	type Dash,
	type Hatch,
	type Ink,
	type SeriesLook,
	type Shape,
	seriesLook,
	type ThemeName,
} from "./look";
export { particleSizeCurves } from "./particle-size-curves";
export type { PictureTheme } from "./picture/paint";
export { figureSvg, type PictureOptions } from "./picture/svg";
export { type PlotlyFigure, plotlyFigure } from "./plotly/plotly";
export { type NarrowLayout, narrowLayout } from "./plotly/room";
export { figureSchema, readFigure } from "./read-figure";
export { residueAndUptake } from "./residue-and-uptake";
export { stageSteps } from "./stages";
export { straightLineAxes, straightLineForms } from "./straight-line-forms";
export { budgetBars } from "./uncertainty-budget";
export { uptakeAgainstCondition } from "./uptake-against-condition";
export { vanTHoffLine } from "./van-t-hoff-line";
export { washingCurve } from "./washing-curve";
