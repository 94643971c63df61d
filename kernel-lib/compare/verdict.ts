import type { Trial } from "../bench";
import type { Isotherm, IsothermFit } from "../isotherms";
import type { Quantity } from "../quantity";
import type { FlaskUptake } from "../uptake";

/** The four words, in the order in which they are tried. */
export type VerdictWord =
	| "no difference that matters"
	| "higher"
	| "lower"
	| "cannot tell";

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
			/** Simultaneous 95 % interval, mg/g. */
			readonly low: number;
			readonly high: number;
			/** Those of the simultaneous intervals; 0 where nothing was estimated from scatter (normal instead of t). */
			readonly degreesOfFreedom: number;
			/** Adjusted p (two-sided, many treatments against a control). */
			readonly adjustedP: number;
	  }
	/** Only a limit of the difference is known, because one side is a bound: the end of the simultaneous interval, uncertainty of the bound included, mg/g. */
	| { readonly is: "at least"; readonly limit: number }
	| { readonly is: "at most"; readonly limit: number }
	| { readonly is: "not available"; readonly because: string };

export type Replicates =
	| { readonly is: "enough" }
	/** This many independent units a treatment would settle the question (2 x half-width <= margin at the upper limit of the spread). */
	| { readonly is: "number"; readonly units: number; readonly because: string }
	| {
			readonly is: "at least";
			readonly units: number;
			readonly because: string;
	  }
	| { readonly is: "not given"; readonly because: string };

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
	/** Mean residual concentration, mg/L. */
	readonly residue: number;
	/** "value", or the side of the bound when every flask is one. */
	readonly is: "value" | "at least" | "at most";
}

export interface TreatmentVerdict {
	readonly treatment: string;
	readonly control: string;
	readonly word: VerdictWord;
	/** One sentence for the head of the page. */
	readonly sentence: string;
	/** Why it is this word and no stronger one; each a full sentence. */
	readonly reasons: readonly string[];
	readonly difference: Difference;
	/** True where the word is higher or lower and the whole interval lies beyond the margin. */
	readonly exceedsMargin: boolean;
	readonly replicates: Replicates;
	/** Dose that would make the residues comparable, in words; "" where they are. */
	readonly comparableDose: string;
	/** Word with every deviating flask left out, and with every one kept. */
	readonly withoutDeviations: VerdictWord;
	readonly withDeviations: VerdictWord;
}

/** Where treatments were compared: at the residues that their flasks happen to have, or all at one stated residue on an isotherm each. */
export type ComparedAt =
	| { readonly is: "own residues" }
	| {
			readonly is: "stated residue";
			readonly residue: Quantity<"massConcentration">;
			/** The form that all treatments were given, and the weights of those that were tried. */
			readonly isotherm: Isotherm;
			readonly isothermWeights: readonly {
				readonly name: string;
				readonly weight: number;
			}[];
			/** The curve of each treatment that has one, or of each of its soaks. */
			readonly fits: readonly IsothermFit[];
	  };

export interface Comparison {
	/** The trial that was compared. */
	readonly trial: Trial;
	/** All flasks with char, those too that a deviation leaves out. */
	readonly flasks: readonly FlaskUptake[];
	/** What was taken up: "iodine". */
	readonly probe: string;
	/** Probability that all intervals hold together. */
	readonly confidence: number;
	readonly at: ComparedAt;
	readonly margin: Quantity<"uptake">;
	readonly scope: VerdictScope;
	readonly groups: readonly GroupSummary[];
	readonly verdicts: readonly TreatmentVerdict[];
	/** How it was done, in sentences: unit, blocks, spread, which equivalence rule, how bounds were used. */
	readonly method: readonly string[];
	/** Residual degrees of freedom N - k - b + 1; 0 for measuring error only. */
	readonly degreesOfFreedom: number;
	/** Pooled standard deviation between units, mg/g; 0 where there is none. */
	readonly pooledDeviation: number;
}
