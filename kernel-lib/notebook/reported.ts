/** The form in which a result travels in a notebook: plain JSON with a format version, from which results.json, ledger.csv and the page are made. */
import type {
	Claim,
	Decision,
	Difference,
	Finding,
	GroupSummary,
	VerdictScope,
	VerdictWord,
	WordGround,
} from "../compare";
import type { MaybeKnown } from "../quantity";
import type { DrawnSeed } from "../stats";
import type { LedgerPart } from "./large/packed-ledger";
import type { StructuredTable } from "./structured-table";
import type { Versions } from "./versions";

/** Type under which a reported result travels in a notebook. */
export const resultMimeType = "application/vnd.charledger.result+json";

/** Names of what a page shows at its head. The answer of a notebook is an answer, a comparison or statements; "answer" is its name in notebooks of earlier versions. */
export const headNames = {
	verdict: "verdict",
	/** A figure that stands above the rows of a comparison. */
	drawn: "verdict drawn",
	answer: "answer",
	cautions: "cautions",
	notConcluded: "not concluded",
	next: "what to do next",
} as const;

/** A value with its unit and standard uncertainty. */
export interface ReportedValue {
	readonly value: number;
	readonly unit: string;
	readonly standardUncertainty: number;
}

export interface ReportedInterval {
	/** Probability that the interval stands for, 0.95. */
	readonly confidence: number;
	readonly low: number;
	readonly high: number;
	/** Half-width over standard uncertainty. */
	readonly coverageFactor: number;
}

/** Treated minus control, mg/g. */
export type ReportedDifference =
	| Extract<Difference, { readonly is: "estimate" }>
	| { readonly is: "at least" | "at most"; readonly limit: number }
	| { readonly is: "not available"; readonly because: string };

/** How many independent units a treatment would tell. */
export type ReportedReplicates =
	| { readonly is: "enough" }
	| {
			readonly is: "number" | "at least";
			readonly units: number;
			readonly because: string;
	  }
	| { readonly is: "not given"; readonly because: string };

/** What the word of a treatment at any margin follows from: it is said where every judged interval gives it, it can be proved and nothing forbids it. */
export interface ReportedWordGround
	extends Pick<WordGround, "claim" | "judged" | "provable"> {
	readonly forbidden: readonly {
		readonly word: VerdictWord;
		readonly because: string;
		readonly upTo: "every margin" | number;
	}[];
	/** Why it cannot be told where the intervals give no word. */
	readonly because: string;
}

/** A flask in a difference, or a treatment whose isotherm was read. */
export interface ReportedWeighed {
	/** "" for an isotherm. */
	readonly flask: string;
	readonly treatment: string;
	readonly weight: number;
	/** At the residue of the comparison, mg/g. */
	readonly uptake: number;
	/** Id of its line in the ledger. */
	readonly line: string;
}

/** How a difference was had: the sum of weight times uptake is the difference. */
export interface ReportedReckoning {
	/** Ids of its lines in the ledger: the difference, then the ends of its interval, each after the difference that it was reckoned from where that is another. */
	readonly lines: readonly string[];
	readonly weighed: readonly ReportedWeighed[];
}

export interface ReportedVerdict {
	readonly treatment: string;
	readonly control: string;
	readonly word: VerdictWord;
	/** True where only the measuring error is covered (one flask a treatment). */
	readonly measuringErrorOnly: boolean;
	readonly sentence: string;
	/** What decided the word, in one short line. */
	readonly inShort: string;
	readonly reasons: readonly string[];
	/** Conditions beyond their allowance and what was assumed: what each could have made the difference look like. */
	readonly conditions: readonly Finding[];
	/** In mg/g. */
	readonly difference: ReportedDifference;
	readonly reckoned: ReportedReckoning;
	/** What the word at any other margin follows from. */
	readonly wordGround: ReportedWordGround;
	/** That holds for this treatment, mg/g. */
	readonly margin: MaybeKnown<number>;
	readonly exceedsMargin: boolean;
	readonly replicates: ReportedReplicates;
	readonly comparableDose: string;
	readonly withoutDeviations: VerdictWord;
	readonly withDeviations: VerdictWord;
}

/** The residue in solution at which treatments were compared; "from the trial": the middle of what they left, because none was stated. */
export type ReportedResidue = {
	readonly is: "stated" | "from the trial";
} & ReportedValue;

/** The smallest difference that would matter, as it was set before looking: an uptake, a share of the control in %, or not at all. */
export type ReportedMargin =
	| ({
			readonly is: "uptake" | "percent of the control";
	  } & ReportedValue)
	| { readonly is: "not set" };

export interface ReportedComparison {
	readonly kind: "comparison";
	/** What was to be shown. */
	readonly claim: Claim;
	/** What was taken up: "iodine". */
	readonly probe: string;
	readonly margin: ReportedMargin;
	/** The words that three margins would have given, where none was set. */
	readonly atThreeMargins: StructuredTable;
	/** Of all intervals of the comparison together. */
	readonly confidence: number;
	readonly statedResidue: ReportedResidue;
	readonly scope: VerdictScope;
	readonly verdicts: readonly ReportedVerdict[];
	/** Decisions that it was made by: what was taken, and what is taken unless told otherwise. */
	readonly decisions: readonly Decision[];
	readonly groups: readonly GroupSummary[];
	/** What to know of this trial before its words are quoted, the weightiest first. */
	readonly beforeQuoting: readonly string[];
	readonly method: readonly string[];
	readonly degreesOfFreedom: number;
	readonly pooledDeviation: number;
	/** Where the scatter comes from: batches, days, soaks, flasks, titrations; no rows where it was not taken apart, absent in notebooks of earlier versions. */
	readonly scatter?: StructuredTable;
}

/** The answer of a notebook as its author put it together. */
export interface ReportedAnswer {
	readonly kind: "answer";
	/** What was found, in one sentence. */
	readonly finding: string;
	/** The figure in words, whose description stands beside the result; "" for none. */
	readonly figure: string;
	readonly tables: readonly StructuredTable[];
	readonly statements: readonly string[];
}

export type ReportedContent =
	| ({
			readonly kind: "quantity";
			readonly interval: ReportedInterval;
	  } & ReportedValue)
	| ({
			readonly kind: "bound";
			readonly side: "at least" | "at most";
			readonly because: string;
	  } & ReportedValue)
	| ReportedComparison
	| ReportedAnswer
	| { readonly kind: "table"; readonly table: StructuredTable }
	| { readonly kind: "figure"; readonly alt: string }
	| { readonly kind: "number"; readonly value: number }
	| { readonly kind: "text"; readonly text: string }
	| { readonly kind: "statements"; readonly statements: readonly string[] };

export interface ReportedResult {
	readonly formatVersion: 2;
	readonly name: string;
	/** A sentence of the reporter's own; "" for none. */
	readonly note: string;
	readonly content: ReportedContent;
	/** The ancestors of the result: inputs with the place they were read at, named steps with their formula. */
	readonly ledger: LedgerPart;
	readonly versions: Versions;
	/** What the session had drawn chance from by then. */
	readonly seeds: readonly DrawnSeed[];
}
