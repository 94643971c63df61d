import type { Trial } from "../bench";
import type { Isotherm, IsothermFit } from "../isotherms";
import type { MaybeKnown, Quantity, Table } from "../quantity";
import type { FlaskUptake } from "../uptake";
import type { SoakAllowance } from "./allowance";
import type { Audited } from "./audit";
import type { DayFactor } from "./day-effects";
import type { IsothermChoice } from "./isotherm-choice";
import type { Margin } from "./margin";
import type { DrawnFlask, Observation } from "./observations";
import type { Obstacle } from "./obstacle";
import type { Pair } from "./pairs";
import type { Reckoned } from "./reckoning";
import type { ResiduesOfPair } from "./residues";
import type { SpreadRule } from "./settings";
import type { Slope } from "./slope";
import type { Spread } from "./spread";
import type { UnitLevel } from "./units";
import type { Claim, Interval, Sameness, VerdictWord } from "./word";
import type { WordGround } from "./word-at";

export type { Margin, PercentOfControl } from "./margin";
export type { Claim, VerdictWord } from "./word";

/** What the spread was taken over, and so what the verdict is about. */
export type VerdictScope =
	/** Several soaks (or firings) a treatment: about the treatment. */
	| "treatment"
	/** One soak a treatment, several flasks: about these lots only. */
	| "these lots"
	/** One flask a treatment, or only bounds: only the measuring error is covered. */
	| "measuring error only";

/** Treated minus control. */
export type Difference =
	| {
			readonly is: "estimate";
			/** Point estimate in mg/g with its standard error (scatter and shared components together). */
			readonly estimate: number;
			readonly standardError: number;
			/** Simultaneous interval, mg/g, for every slope that is allowed for. */
			readonly low: number;
			readonly high: number;
			/** Limits of the difference by a one-sided test each (5 % where the confidence is 95 %), mg/g: both within the margin is "no difference that matters". */
			readonly oneSided: Interval;
			/** Of its simultaneous interval; 0 where nothing was estimated from scatter (normal instead of t). */
			readonly degreesOfFreedom: number;
			/** Adjusted p (two-sided, many treatments against a control). */
			readonly adjustedP: number;
	  }
	| {
			/** Only a limit of the difference is known, because one side is a bound. */
			readonly is: "at least" | "at most";
			/** The end of the simultaneous interval, uncertainty of the bound included, mg/g. */
			readonly limit: number;
			/** The flasks that gave only a bound. */
			readonly flasks: readonly string[];
			/** The intervals without these flasks (with them, where a group has no others), and with all of them at their limit. */
			readonly without: Interval;
			readonly atLimit: Interval;
	  }
	| NoDifference;

/** Why there is no difference to show. */
export type NoDifference = { readonly is: "not available" } & (
	| {
			/** "nothing to compare": the first obstacle says why. "contradiction": the numbers of a flask cannot all be right. */
			readonly why: "nothing to compare" | "contradiction";
	  }
	| {
			/** These flasks ran dry, and what is left of their soak may have used up part of the dose: not even a bound is known. */
			readonly why: "soak remains";
			readonly flasks: readonly string[];
	  }
);

/** What would tell. */
export type Replicates =
	| { readonly is: "enough" }
	/** So many independent units a treatment would settle the question (full width of the interval <= margin at the upper limit of the spread). */
	| {
			readonly is: "number" | "at least";
			readonly units: number;
			readonly from: ReckonedFrom;
	  }
	| { readonly is: "not given"; readonly why: WhyNoNumber };

/** What a number of replicates is reckoned from. */
export type ReckonedFrom =
	/** mg/g; what was seen at its upper 80 % limit, or what was stated. */
	| {
			readonly is: "spread between units";
			readonly spread: number;
			/** Width, mg/g, that slopes which were not measured add to the interval and more units do not take off: the number is "at least" then. 0 where it is nothing to speak of. */
			readonly slopes: number;
	  }
	| {
			readonly is: "scatter about isotherms";
			readonly of: "soaks" | "flasks";
			/** So many times the flasks of this trial. */
			readonly times: number;
	  };

/** Why no number of replicates can be given. */
export type WhyNoNumber =
	| { readonly is: "no spread" }
	/** The number is reckoned from the margin. */
	| { readonly is: "no margin"; readonly because: string }
	/** A difference about as large as the margin stays open however many there are. */
	| { readonly is: "claim" }
	/** Something that replicates do not mend; the first obstacle says what. */
	| { readonly is: "other obstacle" }
	/** An input that the flasks share moves the difference by so many mg/g. */
	| {
			readonly is: "shared error";
			readonly of: string;
			readonly effect: number;
	  }
	| { readonly is: "errors of the curves"; readonly effect: number }
	| {
			readonly is: "too many" | "too many times the flasks";
			readonly most: number;
	  };

/** A group of flasks of one treatment, as it enters the comparison. */
export interface GroupSummary {
	readonly treatment: string;
	/** Independent units (soaks, or flasks where each treatment had one soak). */
	readonly units: number;
	readonly flasks: number;
	/** Names of flasks that gave only a bound. */
	readonly boundFlasks: readonly string[];
	/** Mean uptake, mg/g, bound flasks at their limit; its 95 % interval (not simultaneous) for drawing. */
	readonly mean: number;
	readonly low: number;
	readonly high: number;
	/** Residual concentration that the mean uptake stands at, mg/L: that of the comparison. */
	readonly residue: number;
	/** Mean residual concentration that the flasks left, mg/L. */
	readonly left: number;
	/** "value", or the side of the bound when every flask is one. */
	readonly is: "value" | "at least" | "at most";
}

/** One treatment against its control, as plain data; `words` has the sentences. */
export interface TreatmentVerdict {
	readonly treatment: string;
	readonly control: string;
	readonly word: VerdictWord;
	/** What the numbers alone say, before anything that forbids it: with room for soaks and slopes, or, where that leaves nothing to say, without. */
	readonly numbersSay: VerdictWord;
	/** What forbids a word; none where the word is what the numbers say. */
	readonly obstacles: readonly Obstacle[];
	/** Every condition that a sheet may record and that limits a word, as it stands on the two sides. */
	readonly audited: readonly Audited[];
	readonly difference: Difference;
	/** What was weighed for it, and what its ends are made of. */
	readonly reckoned: Reckoned;
	/** The same as a table: the flasks with their weights, the difference, and what its ends are made of. */
	readonly working: Table;
	/** Room that the ends of the difference leave for what the soaks may have done. */
	readonly soakAllowance: SoakAllowance;
	/** What the other way of judging sameness would have said. */
	readonly otherwise: VerdictWord;
	/** The margin that holds for this pair, mg/g; not known where none was set, or where it cannot be had. */
	readonly margin: MaybeKnown<number>;
	/** What the word at any other margin follows from. */
	readonly ground: WordGround;
	/** True where the word is higher or lower and the whole interval lies beyond the margin. */
	readonly exceedsMargin: boolean;
	/** Mean residues of flasks that were carried from them. */
	readonly residues:
		| ({ readonly is: "known" } & ResiduesOfPair)
		| { readonly is: "unknown" };
	/** Units (soaks or flasks) of the treatment and of its control that gave values. */
	readonly units: { readonly treated: number; readonly control: number };
	readonly replicates: Replicates;
	/** Word with every deviating flask left out, and with every one kept. */
	readonly withoutDeviations: VerdictWord;
	readonly withDeviations: VerdictWord;
}

/** Who fixed the residue of a comparison: where nobody did, it was taken from the middle of what the flasks left. */
export type StatedBy = "the experimenter" | "nobody";

/** The one residue at which all treatments were compared, and how their uptakes there were had: each flask carried there, or off an isotherm of each treatment. */
export type ComparedAt =
	| {
			readonly is: "carried";
			readonly residue: Quantity<"massConcentration">;
			readonly statedBy: StatedBy;
			/** By treatment. */
			readonly slopes: ReadonlyMap<string, Slope>;
			/** Every flask with char, carried there, those too that a deviation leaves out. */
			readonly flasks: readonly DrawnFlask[];
	  }
	| {
			readonly is: "isotherms";
			readonly residue: Quantity<"massConcentration">;
			readonly statedBy: StatedBy;
			/** The form that all treatments were given, and the weights of those that were tried. */
			readonly isotherm: Isotherm;
			readonly isothermWeights: readonly {
				readonly name: string;
				readonly weight: number;
			}[];
			/** The curve of each treatment that has one, or of each of its soaks, through uptakes without what their days multiplied them by. */
			readonly fits: readonly IsothermFit[];
	  };

/** What holds for all intervals of a comparison together. */
export interface Simultaneous {
	/** The pairs that have an interval. */
	readonly pairs: readonly Pair[];
	/** Of the multivariate t of each; 0 for the multivariate normal, where nothing was estimated from scatter. */
	readonly degreesOfFreedom: readonly number[];
	readonly criticalValues: readonly number[];
	/** "bound": of so many, critical values and p may be a little too large, but never too small. */
	readonly are: "computed" | "bound";
}

/** How a comparison was done. */
export type ComparisonMethod =
	| {
			readonly is: "carried";
			readonly unit: UnitLevel;
			/** Units of each treatment that gave values. */
			readonly units: ReadonlyMap<string, number>;
			/** Days in the model. */
			readonly days: readonly string[];
			readonly spread: Spread;
			readonly simultaneous: Simultaneous;
	  }
	| {
			readonly is: "isotherms";
			readonly choice: IsothermChoice;
			/** Whether soaks with curves of their own are what counts, and whether they are taken to scatter alike. */
			readonly bySoak: boolean;
			/** What the days multiplied all uptakes by; empty where no treatment stood on several days, or none is recorded. */
			readonly days: readonly DayFactor[];
			readonly spread: SpreadRule;
			/** Of each treatment that has an uptake at the stated residue. */
			readonly curves: readonly CurveUptake[];
			readonly simultaneous: Simultaneous;
	  };

/** Uptake of one treatment on its isotherm (or those of its soaks) at the stated residue, mg/g, with an interval of its own. */
export interface CurveUptake {
	readonly treatment: string;
	readonly uptake: number;
	readonly low: number;
	readonly high: number;
	readonly scatterFrom: "curve" | "readings" | "single flasks" | "soaks";
	/** Of the scatter about the curve. */
	readonly degreesOfFreedom: number;
	readonly fits: readonly IsothermFit[];
}

/** A decision of ours that is a switch: what was taken, and what is taken unless told otherwise, in words. */
export interface Decision {
	readonly name: string;
	readonly taken: string;
	readonly usual: string;
	/** Why it has no part in this comparison; "" where it has. */
	readonly idle: string;
}

export interface Comparison {
	/** The trial that was compared. */
	readonly trial: Trial;
	/** All flasks with char, those too that a deviation leaves out. */
	readonly flasks: readonly FlaskUptake[];
	/** Those that were compared, as the deviations say that they are to be handled. */
	readonly compared: readonly Observation[];
	/** What deviations touched: char flasks with what happened, and what else (blanks, standards), in words. */
	readonly deviations: {
		readonly flasks: readonly string[];
		readonly happened: readonly string[];
		readonly elsewhere: readonly string[];
	};
	/** What was taken up: "iodine". */
	readonly probe: string;
	/** Probability that all intervals hold together. */
	readonly confidence: number;
	readonly at: ComparedAt;
	/** The smallest difference that would matter, as it was set before looking. */
	readonly margin: Margin;
	/** What was to be shown. */
	readonly claim: Claim;
	/** How "no difference that matters" was judged. */
	readonly sameness: Sameness;
	readonly scope: VerdictScope;
	readonly groups: readonly GroupSummary[];
	readonly verdicts: readonly TreatmentVerdict[];
	/** Decisions that it was made by. */
	readonly decisions: readonly Decision[];
	/** How it was done: unit, blocks, spread, isotherms. */
	readonly method: ComparisonMethod;
	/** Residual degrees of freedom N - k - b + 1; 0 for measuring error only. */
	readonly degreesOfFreedom: number;
	/** Pooled standard deviation between units, mg/g; 0 where there is none. */
	readonly pooledDeviation: number;
}
