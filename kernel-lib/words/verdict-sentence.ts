import { oneDeterminationPoints } from "../bench";
import {
	type Comparison,
	type Difference,
	type Interval,
	perGramOf,
	requireComparison,
	requireVerdict,
	residueText,
	suspicionOf,
	type TreatmentVerdict,
	takesAs,
	type VerdictScope,
} from "../compare";
import { decimalsFor, fixed, listed } from "../quantity";
import { assumedJarSpread, soakMay } from "../uptake";
import { charBatchesOf } from "./char-batches";
import { findingsClosing } from "./finding-words";
import { obstacleHeadline } from "./obstacle-words";
import { replicatesClosing } from "./replicates-words";
import {
	flasksNamed,
	marginText,
	percent,
	placesFor,
	roughly,
	sentence,
} from "./wording";

type Estimate = Extract<Difference, { readonly is: "estimate" }>;

function intervalText(
	{ low, high }: Interval,
	places: number,
	confidence: number,
	opening = "",
): string {
	return `${percent(confidence)} interval ${opening}${fixed(low, places)} to ${fixed(high, places)}`;
}

function placesOf({ low, high }: Estimate, margin: number): number {
	return placesFor(low, high, [0, margin, -margin]);
}

/** "higher than its control by 64 mg/g (95 % interval 41 to 87), more than the 25 mg/g that would matter" */
function differenceText(c: Comparison, v: TreatmentVerdict): string {
	const d = v.difference;
	const matters = `the ${marginText(c)} that would matter`;
	const measuring = c.scope === "measuring error only";
	const word = measuring
		? `${v.word} than measuring error explains, against its control`
		: `${v.word} than its control`;
	const certainty = v.exceedsMargin
		? `more than ${matters}`
		: `whether it is more than ${matters} is open`;
	if (d.is === "not available") return word;
	if (d.is !== "estimate") {
		const limit = Math.abs(d.limit);
		const places = Math.max(0, decimalsFor(limit / 4));
		return `${word} by at least ${fixed(limit, places)} mg/g, ${certainty}; ${flasksNamed(d.flasks)} gave only a bound`;
	}
	const places = placesOf(d, c.margin.in("mg/g"));
	const shown: Interval =
		v.word === "lower" ? { low: -d.high, high: -d.low } : d;
	return `${word} by ${fixed(Math.abs(d.estimate), places)} mg/g (${intervalText(shown, places, c.confidence, measuring ? "of the measuring error " : "")}), ${certainty}`;
}

function noDifferenceText(
	c: Comparison,
	{ difference: d }: TreatmentVerdict,
): string {
	if (d.is !== "estimate") return "no difference that matters";
	const margin = c.margin.in("mg/g");
	const measuring =
		c.scope === "measuring error only"
			? ", as far as measuring error goes"
			: "";
	const tests = c.sameness === "one-sided tests";
	const judged = tests ? d.oneSided : d;
	const places = placesFor(judged.low, judged.high, [0, margin, -margin]);
	const confidence = tests
		? Number((2 * c.confidence - 1).toPrecision(12))
		: c.confidence;
	const also =
		d.low > 0 || d.high < 0
			? `, and ${d.low > 0 ? "higher" : "lower"} by ${fixed(Math.min(Math.abs(d.low), Math.abs(d.high)), places)} to ${fixed(Math.max(Math.abs(d.low), Math.abs(d.high)), places)}`
			: "";
	return `no difference that matters from its control${measuring} (${fixed(d.estimate, places)} mg/g, ${intervalText(judged, places, confidence)}${also}; ${marginText(c)} would matter)`;
}

/** What stands in the way, a suspected demand included even where another obstacle already took the word away. */
function headlinesOf(c: Comparison, v: TreatmentVerdict): string[] {
	const suspicion = suspicionOf(c.compared, v.treatment);
	const demand =
		suspicion.flasks.length > 0
			? [`what is left of its soak ${soakMay[suspicion.looksLike]}`]
			: [];
	return [...new Set([...v.obstacles.map(obstacleHeadline), ...demand])];
}

function cannotTellText(c: Comparison, v: TreatmentVerdict): string {
	if (v.obstacles.length > 0)
		return `cannot tell: ${listed(headlinesOf(c, v))}`;
	const d = v.difference;
	if (d.is !== "estimate") return "cannot tell";
	const places = placesOf(d, c.margin.in("mg/g"));
	return `cannot tell whether it differs from its control (${fixed(d.estimate, places)} mg/g, ${intervalText(d, places, c.confidence)}, takes in zero and reaches past the ${marginText(c)} that would matter)${replicatesClosing(v.replicates)}`;
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

/** ", for char batch A": said where all of the treated char came from one recorded batch, since the verdict is about it and no other. */
function batchClosing(c: Comparison, treatment: string): string {
	const batches = charBatchesOf(c, treatment);
	return batches.length === 1 && batches[0] !== ""
		? `; this is about char batch ${batches[0]}`
		: "";
}

function limitsOf(c: Comparison, v: TreatmentVerdict): string {
	if (v.word === "cannot tell") return "";
	switch (c.scope) {
		case "measuring error only":
			return "; nothing is said about the treatment, for its spread was not seen";
		case "these lots":
			return "; the treatment was made once, so that nothing is said about making it again";
		case "treatment":
			return batchClosing(c, v.treatment);
	}
}

/** The room that the interval has in it for what soaks may have left. */
function allowanceClosing({
	difference,
	soakAllowance: { low, high },
}: TreatmentVerdict): string {
	const room = [
		...(low > 0 ? [`${roughly(low)} mg/g at its lower end`] : []),
		...(high > 0 ? [`${roughly(high)} mg/g at its upper end`] : []),
	];
	return difference.is === "estimate" && room.length > 0
		? `; for what the soaks may have left the interval is wider by ${listed(room)}`
		: "";
}

function deviationsClosing(c: Comparison, v: TreatmentVerdict): string {
	return v.withDeviations === v.withoutDeviations
		? ""
		: `. This depends on ${flasksNamed(c.deviations.flasks)}, touched by a deviation: "${v.withDeviations}" with, "${v.withoutDeviations}" without`;
}

function scopeOpening(scope: VerdictScope): string {
	return scope === "these lots" ? "in these lots, " : "";
}

/** Where both stand while they are compared, as in "at 2.5 g/L iodine left, "; that nobody had stated it is said. */
function placeOpening({ at, probe }: Comparison): string {
	return `at ${residueText(at.residue.in("mg/L"))} ${probe} left${at.statedBy === "nobody" ? " (not stated before the trial)" : ""}, `;
}

/** What an uptake is per gram of, where that is not dry char. */
function gramClosing(c: Comparison, v: TreatmentVerdict): string {
	return v.word !== "cannot tell" &&
		perGramOf(c.compared, v) === "char as weighed"
		? "; per gram as weighed, for moisture was not measured"
		: "";
}

/** What the interval takes from decisions of this program, because the sheet shows nothing of it. */
function takenClosing(c: Comparison, v: TreatmentVerdict): string {
	if (v.word === "cannot tell") return "";
	const moisture = takesAs(c.compared, v, "moisture")
		? `; moisture from one determination, taken as good to ${oneDeterminationPoints} point`
		: "";
	// Replicates show by their scatter how jars differ.
	const jars =
		c.scope === "measuring error only" &&
		takesAs(c.compared, v, "losses of jars")
			? `; one iodine blank does not show how jars differ, taken as ${100 * assumedJarSpread} points of recovery`
			: "";
	return `${moisture}${jars}`;
}

/** So few units of a treatment lean on the spread of the others. */
const fewUnits = 3;

/** Where a word rests in part on a spread that other treatments showed. */
function spreadClosing(c: Comparison, v: TreatmentVerdict): string {
	const { treated, control } = v.units;
	if (
		c.method.is !== "carried" ||
		c.scope !== "treatment" ||
		v.word === "cannot tell" ||
		Math.min(treated, control) > fewUnits
	)
		return "";
	return `; with ${treated} soaks against ${control} this rests in part on soaks of all treatments scattering alike`;
}

/**
 * The sentence of one verdict for the head of the page: the word, the difference with its interval in mg/g, and what it is about.
 *
 * @param v one of the comparison's verdicts
 * @example
 * const compared = compare.compareTreatments(trial, { margin: compare.marginOf(25) });
 * words.verdictSentence(compared, compared.verdicts[0]).startsWith(`${compared.verdicts[0].treatment}: `) // => true
 */
export function verdictSentence(c: Comparison, v: TreatmentVerdict): string {
	requireComparison(c, "words.verdictSentence");
	requireVerdict(v, "words.verdictSentence");
	return sentence(
		`${v.treatment}: ${scopeOpening(c.scope)}${placeOpening(c)}${bodyOf(c, v)}${limitsOf(c, v)}${gramClosing(c, v)}${takenClosing(c, v)}${spreadClosing(c, v)}${allowanceClosing(v)}${findingsClosing(v)}${deviationsClosing(c, v)}`,
	);
}
