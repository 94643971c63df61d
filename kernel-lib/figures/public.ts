/** Figures of results, in the order of the flow; each shows itself in a notebook. */

// Of the trial

export { balanceLadder } from "./balance-ladder";
export { calibrationLine } from "./calibration-line";
export { residueAndUptake } from "./residue-and-uptake";
export {
	type UncertaintyBudgetOptions,
	uncertaintyBudget,
} from "./uncertainty-budget";

// Of the char

export { charLots } from "./char-lots";
export { course } from "./course";
export { gramsOfChar } from "./grams-of-char";
export { particleSizeCurves } from "./particle-size-curves";
export { uptakeAgainstCondition } from "./uptake-against-condition";

// Of curves through many doses

export { iodineNumberLine } from "./iodine-number-line";
export { type IsothermFigureOptions, isotherms } from "./isotherms";

// Of straight-line forms

export type { EstimatesOptions } from "./estimates-against-truth";
export { straightLines } from "./straight-lines";

// Of doses and temperatures

export { type DoseAndRemovalOptions, doseAndRemoval } from "./dose-and-removal";
export { type DoseForTargetOptions, doseForTarget } from "./dose-for-target";
export { vanTHoffLine } from "./van-t-hoff-line";

// Of the verdict

export { differences } from "./differences";
export { flasksAgainstControl } from "./flasks-against-control";

// One's own, and pictures to keep

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
export { figure } from "./figure";
export type { Dash, Hatch, Ink, Shape } from "./look";
export type { PictureTheme } from "./picture/paint";
export { figureSvg, type PictureOptions } from "./picture/svg";
export { type ScatterOptions, scatter } from "./scatter";
