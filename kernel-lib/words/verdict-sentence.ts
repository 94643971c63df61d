import { oneDeterminationPoints } from "../bench";
import {
	type Comparison,
	differencePlaces,
	type Interval,
	perGramOf,
	requireComparison,
	requireVerdict,
	residueText,
	type TreatmentVerdict,
	takesAs,
	type VerdictScope,
} from "../compare";
import { fixed, listed, type MaybeKnown, quoted } from "../quantity";
import { assumedJarSpread } from "../uptake";
import { charBatchesOf } from "./char-batches";
import { findingsClosing } from "./finding-words";
import { replicatesClosing } from "./replicates-words";
import {
	decidedOtherwise,
	type Estimate,
	fewUnits,
	intervalText,
	judgedOn,
	obstaclesInWay,
	soakRoom,
} from "./verdict-clauses";
import { capital, flasksNamed, marginText, sentence } from "./wording";

/** Whether the difference surely exceeds what matters; nothing where there is no margin. */
function certaintyText(c: Comparison, v: TreatmentVerdict): string {
	const margin = marginText(c, v);
	if (margin.is === "not known") return "";
	const matters = `the ${margin.value} that would matter`;
	return v.exceedsMargin
		? `, more than ${matters}`
		: `, whether it is more than ${matters} is open`;
}

/** "higher than its control by 64 mg/g (95 % interval 41 to 87), more than the 25 mg/g that would matter" */
function differenceText(c: Comparison, v: TreatmentVerdict): string {
	const d = v.difference;
	const measuring = c.scope === "measuring error only";
	const word = measuring
		? `${v.word} than measuring error explains, against its control`
		: `${v.word} than its control`;
	const certainty = certaintyText(c, v);
	if (d.is === "not available") return word;
	if (d.is !== "estimate") {
		return `${word} by at least ${fixed(Math.abs(d.limit), differencePlaces(v))} mg/g${certainty}. ${capital(flasksNamed(d.flasks))} gave only a bound`;
	}
	const places = differencePlaces(v);
	const shown: Interval =
		v.word === "lower" ? { low: -d.high, high: -d.low } : d;
	return `${word} by ${fixed(Math.abs(d.estimate), places)} mg/g (${intervalText(shown, places, c.confidence, measuring ? "of the measuring error " : "")})${certainty}`;
}

function noDifferenceText(c: Comparison, v: TreatmentVerdict): string {
	const { difference: d } = v;
	const margin = marginText(c, v);
	if (d.is !== "estimate" || margin.is === "not known")
		return "no difference that matters";
	const measuring =
		c.scope === "measuring error only"
			? ", as far as measuring error goes"
			: "";
	const { places, text: judged } = judgedOn(c, v, d);
	const also =
		d.low > 0 || d.high < 0
			? `, and ${d.low > 0 ? "higher" : "lower"} by ${fixed(Math.min(Math.abs(d.low), Math.abs(d.high)), places)} to ${fixed(Math.max(Math.abs(d.low), Math.abs(d.high)), places)}`
			: "";
	return `no difference that matters from its control${measuring} (${fixed(d.estimate, places)} mg/g, ${judged}${also}; ${margin.value} would matter)`;
}

function cannotTellText(c: Comparison, v: TreatmentVerdict): string {
	if (v.obstacles.length > 0)
		return `cannot tell: ${listed(obstaclesInWay(c, v))}`;
	const d = v.difference;
	if (d.is !== "estimate") return "cannot tell";
	const places = differencePlaces(v);
	const found = `${fixed(d.estimate, places)} mg/g, ${intervalText(d, places, c.confidence)}`;
	const margin = marginText(c, v);
	return [
		`cannot tell ${openQuestion(found, d, c, margin)}`,
		...replicatesClosing(v.replicates),
	].join(". ");
}

/** What could not be told, with the interval that leaves it open. */
function openQuestion(
	found: string,
	{ low }: Estimate,
	{ claim }: Comparison,
	margin: MaybeKnown<string>,
): string {
	if (margin.is === "not known")
		return `whether it differs from its control (${found}, takes in zero)`;
	if (claim === "difference")
		return `whether it differs from its control (${found}, takes in zero and reaches past the ${margin.value} that would matter)`;
	return `whether it is higher than its control by the ${margin.value} that would matter or more (${found}, ${low > 0 ? "surely higher, by how much is open" : "takes in zero"})`;
}

function bodyOf(c: Comparison, v: TreatmentVerdict): string {
	switch (v.word) {
		case "cannot tell":
			return cannotTellText(c, v);
		case "no difference that matters":
			return noDifferenceText(c, v);
		default:
			return differenceText(c, v);
	}
}

/** Said where all of the treated char came from one recorded batch: the verdict is about it and no other. */
function batchClosing(c: Comparison, treatment: string): string[] {
	const batches = charBatchesOf(c, treatment);
	return batches.length === 1 && batches[0] !== ""
		? [`This is about char batch ${quoted(batches[0])}`]
		: [];
}

function limitsOf(c: Comparison, v: TreatmentVerdict): string[] {
	switch (c.scope) {
		case "measuring error only":
			return [
				"Nothing is said about the treatment, for its spread was not seen",
			];
		case "these lots":
			return [
				"The treatment was made once, so that nothing is said about making it again",
			];
		case "treatment":
			return batchClosing(c, v.treatment);
	}
}

/** The room that the interval has in it for what soaks may have left. */
function allowanceClosing(v: TreatmentVerdict): string[] {
	const room = soakRoom(v);
	return room === ""
		? []
		: [`For what the soaks may have left, the interval is wider by ${room}`];
}

function deviationsClosing(c: Comparison, v: TreatmentVerdict): string[] {
	return v.withDeviations === v.withoutDeviations
		? []
		: [
				`This depends on ${flasksNamed(c.deviations.flasks)}, touched by a deviation: "${v.withDeviations}" with, "${v.withoutDeviations}" without`,
			];
}

function scopeOpening(scope: VerdictScope): string {
	return scope === "these lots" ? "in these lots, " : "";
}

/** Where both stand while they are compared, as in "at 2.5 g/L iodine left, "; that nobody had stated it is said. */
function placeOpening({ at, probe }: Comparison): string {
	return `at ${residueText(at.residue.in("mg/L"))} ${probe} left${at.statedBy === "nobody" ? " (not stated before the trial)" : ""}, `;
}

/** What an uptake is per gram of, where that is not dry char. */
function gramClosing(c: Comparison, v: TreatmentVerdict): string[] {
	return perGramOf(c.compared, v) === "char as weighed"
		? ["Uptakes are per gram as weighed, for moisture was not measured"]
		: [];
}

/** What the interval takes from decisions of this program, because the sheet shows nothing of it. */
function takenClosing(c: Comparison, v: TreatmentVerdict): string[] {
	return [
		...(takesAs(c.compared, v, "moisture")
			? [
					`Moisture from one determination is taken as good to ${oneDeterminationPoints} point`,
				]
			: []),
		// Replicates show by their scatter how jars differ.
		...(c.scope === "measuring error only" &&
		takesAs(c.compared, v, "losses of jars")
			? [
					`No two iodine blanks show how jars differ: ${100 * assumedJarSpread} points of recovery are taken`,
				]
			: []),
	];
}

/** What was to be shown, where that is more than a difference; and why nothing is called too small to matter, where there is no margin. */
function claimClosing(c: Comparison, v: TreatmentVerdict): string[] {
	const margin = marginText(c, v);
	if (margin.is === "not known")
		return v.word === "cannot tell" && v.obstacles.length > 0
			? []
			: [capital(margin.because)];
	return c.claim === "difference"
		? []
		: [`The claim set beforehand was "at least ${margin.value} more"`];
}

/** Where a word rests in part on a spread that other treatments showed. */
function spreadClosing(c: Comparison, v: TreatmentVerdict): string[] {
	const { treated, control } = v.units;
	if (
		c.method.is !== "carried" ||
		c.scope !== "treatment" ||
		Math.min(treated, control) > fewUnits
	)
		return [];
	return [
		`With ${treated} soaks against ${control} this rests in part on soaks of all treatments scattering alike`,
	];
}

/** What limits a word that was said. */
function wordClosings(c: Comparison, v: TreatmentVerdict): string[] {
	return v.word === "cannot tell"
		? []
		: [
				...limitsOf(c, v),
				...gramClosing(c, v),
				...takenClosing(c, v),
				...spreadClosing(c, v),
			];
}

/**
 * The sentences of one verdict for the head of the page: the word, the difference with its interval in mg/g, and what it is about.
 *
 * @param v one of the comparison's verdicts
 * @example
 * const compared = compare.compareTreatments(trial, { margin: compare.marginOf(25) });
 * words.verdictSentence(compared, compared.verdicts[0]).startsWith(`"${compared.verdicts[0].treatment}": `) // => true
 */
export function verdictSentence(c: Comparison, v: TreatmentVerdict): string {
	requireComparison(c, "words.verdictSentence");
	requireVerdict(v, "words.verdictSentence");
	return [
		`${quoted(v.treatment)}: ${scopeOpening(c.scope)}${placeOpening(c)}${bodyOf(c, v)}`,
		...claimClosing(c, v),
		...wordClosings(c, v),
		...allowanceClosing(v),
		...findingsClosing(v),
		...decidedOtherwise(c),
		...deviationsClosing(c, v),
	]
		.map(sentence)
		.join(" ");
}
