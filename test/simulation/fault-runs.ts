/** A sheet of a design with a fault, analysed: what was said of each treatment, and what the textbook route says of the same flasks. */
import type { FaultDesign } from "../../data/simulation/fault-plan.mjs";
import { simulateFault } from "../../data/simulation/fault-trial.mjs";
import * as bench from "../../kernel-lib/bench/index";
import * as compare from "../../kernel-lib/compare/index";
import { ProblemError } from "../../kernel-lib/problem/index";
import * as uptake from "../../kernel-lib/uptake/index";
import { verdictSentence } from "../../kernel-lib/words/index";
import type { Said } from "./said";
import { type Textbook, textbook } from "./textbook";

export interface FaultSaid extends Omit<Said, "word"> {
	/** "refused" where the sheet is not analysed, "not judged" where this treatment is not. */
	readonly word: Said["word"] | "refused" | "not judged";
	/** The sentence in the head; "" where there is none. */
	readonly head: string;
	/** Whether its interval or bound holds the truth; null where it has neither. */
	readonly holds: boolean | null;
	/** Half the width of its interval, mg/g; null where it has none. */
	readonly halfWidth: number | null;
	/** Whether its interval leaves out zero, whatever word that makes; a bound has none. */
	readonly clear: boolean;
}

export interface FaultOutcome {
	readonly said: readonly FaultSaid[];
	readonly textbook: readonly Textbook[];
	/** The same of the uptakes at the stated residue, as whoever knew the true 1/n would have them. */
	readonly textbookAtResidue: readonly Textbook[];
}

function held(
	difference: compare.Difference,
	truth: number,
): Pick<FaultSaid, "holds" | "halfWidth" | "clear"> {
	switch (difference.is) {
		case "estimate":
			return {
				holds: difference.low <= truth && truth <= difference.high,
				halfWidth: (difference.high - difference.low) / 2,
				clear: difference.low > 0 || difference.high < 0,
			};
		case "at least":
			return {
				holds: difference.limit <= truth,
				halfWidth: null,
				clear: false,
			};
		case "at most":
			return {
				holds: truth <= difference.limit,
				halfWidth: null,
				clear: false,
			};
		case "not available":
			return { holds: null, halfWidth: null, clear: false };
	}
}

/** The comparison at the residue that was fixed with the design. */
function compared(
	design: FaultDesign,
	trial: bench.Trial,
	options: compare.CompareOptions,
): compare.Comparison {
	return compare.compareTreatments(trial, {
		margin: compare.marginOf(design.margin),
		residue: compare.residueOf(design.residue),
		...options,
	});
}

/** What the textbook route says of the same flasks, each with its uptake carried by so many powers of the residue. */
function textbookOf(
	design: FaultDesign,
	trial: bench.Trial,
	exponent: number,
): Textbook[] {
	const control =
		design.treatments.find((t) => t.difference === undefined)?.treatment ?? "";
	return textbook(
		uptake.uptakes(trial).map((u) => ({
			treatment: u.flask.treatment,
			soak: u.flask.soak,
			uptake:
				u.uptake.quantity.in("mg/g") *
				(design.residue / u.residue.quantity.in("mg/L")) ** exponent,
		})),
		control,
		design.margin,
	);
}

const refusal = {
	head: "",
	holds: null,
	halfWidth: null,
	clear: false,
} as const;

/** @param options beside margin and residue of the design */
export function faultOutcome(
	design: FaultDesign,
	seed: number,
	options: compare.CompareOptions = {},
): FaultOutcome {
	const { truth, ...sheet } = simulateFault(design, seed);
	try {
		const trial = bench.trialFromRows(sheet);
		const comparison = compared(design, trial, options);
		return {
			said: truth.treatments.map(({ treatment, difference }) => {
				const v = comparison.verdicts.find((x) => x.treatment === treatment);
				const own = { treatment, trueDifference: difference };
				return v === undefined
					? { ...own, ...refusal, word: "not judged" }
					: {
							...own,
							word: v.word,
							head: verdictSentence(comparison, v),
							...held(v.difference, difference),
						};
			}),
			textbook: textbookOf(design, trial, 0),
			textbookAtResidue: textbookOf(design, trial, design.bench.exponent),
		};
	} catch (error) {
		if (!(error instanceof ProblemError)) throw error;
		return {
			said: truth.treatments.map(({ treatment, difference }) => ({
				treatment,
				trueDifference: difference,
				...refusal,
				word: "refused",
			})),
			textbook: [],
			textbookAtResidue: [],
		};
	}
}
