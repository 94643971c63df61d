/** What holds for a comparison at a stated residue and for one without. */
import { oneDeterminationPoints } from "../bench";
import { type Comparison, significanceLevel } from "../compare";
import { listed, plainNumber, quoted } from "../quantity";
import { assumedJarSpread, isLimited, type TakenAs } from "../uptake";
import { raisedOrLowered } from "./obstacle-words";
import { flasksNamed, percent } from "./wording";

/** How the intervals were made to hold together. */
export function intervalSentences({
	method,
	confidence,
}: Comparison): string[] {
	const { pairs, degreesOfFreedom, criticalValues, are } = method.simultaneous;
	if (pairs.length === 0) return [];
	const short = (values: readonly number[], digits: number): string =>
		listed([
			...new Set(values.map((v) => plainNumber(Number(v.toPrecision(digits))))),
		]);
	const named = degreesOfFreedom.some((df) => df > 0)
		? `multivariate t with ${short(degreesOfFreedom, 3)} degrees of freedom${pairs.length > 1 ? ", each difference with its own" : ""}`
		: "multivariate normal";
	const values = new Set(criticalValues.map((v) => v.toPrecision(4))).size;
	return [
		`The ${percent(confidence)} intervals hold for ${pairs.length === 1 ? "the one difference" : `all ${pairs.length} differences together`} (many treatments against a control, two-sided, ${named}, critical ${values > 1 ? "values" : "value"} ${short(criticalValues, 4)}), with the correlation that common controls and shared errors give them; p is adjusted likewise.`,
		...(are === "bound"
			? [
					"For so many differences the critical values and p are a bound: as if every correlation were a little lower (Slepian's inequality), with both directions counted in full.",
				]
			: []),
	];
}

/** The margin as it was set, in words. */
function marginSetText({ margin, verdicts }: Comparison): string {
	switch (margin.is) {
		case "not set":
			return "no margin set";
		case "uptake":
			return `a margin of ${plainNumber(margin.uptake.in("mg/g"))} mg/g set beforehand`;
		case "percent of the control": {
			const each = verdicts.map((v) =>
				v.margin.is === "value"
					? `${quoted(v.treatment)} ${plainNumber(v.margin.value)} mg/g`
					: `${quoted(v.treatment)} none`,
			);
			return `a margin of ${plainNumber(margin.percent)} % of the control's uptake at this residue set beforehand (${each.join(", ")}; to three digits, the error of the control's uptake is not in it)`;
		}
	}
}

/** The order in which words are tried, by which claim, and which rule of equivalence was used. */
export function orderSentence(c: Comparison): string {
	const level = significanceLevel(c.confidence);
	const tests = `two one-sided tests of each treatment at ${percent(level)} (its own ${percent(significanceLevel(2 * level))} interval)`;
	const interval = `the ${percent(c.confidence)} simultaneous interval`;
	const strict = c.sameness === "interval";
	if (c.margin.is === "not set")
		return `Order of the words, with no margin set: ${interval} leaving out zero, "higher" or "lower"; else "cannot tell". "No difference that matters" is never said without a margin that was set beforehand.`;
	const words =
		c.claim === "difference"
			? `else ${interval} leaving out zero, "higher" or "lower"; else "cannot tell". The claim was a difference`
			: `else ${interval} lying wholly beyond the margin, "higher", or wholly below zero, "lower"; else "cannot tell". The claim was at least the margin more, which is stricter than a difference`;
	return `Order of the words, with ${marginSetText(c)}: a difference within the margin of zero, "no difference that matters"; ${words}. Absence of a difference is judged by ${strict ? `${interval}, which is stricter than ${tests}` : `${tests}; ${interval} inside the margin would be stricter`}.`;
}

/** What the uncertainties take from decisions of ours, because nobody measured it. */
export function takenSentences({ compared, scope }: Comparison): string[] {
	const any = (what: TakenAs): boolean =>
		compared.some((o) => o.flask.takenAs.includes(what));
	return [
		...(any("moisture")
			? [
					`Moisture from one determination is taken as good to ${oneDeterminationPoints} point (standard uncertainty; a decision of this program). It is one error for all flasks of a treatment that hold the same number. Write repeats in numbered columns, or its uncertainty in "moisture uncertainty (%)".`,
				]
			: []),
		...(scope === "measuring error only" && any("losses of jars")
			? [
					`One iodine blank does not show how one jar differs from the next in what it loses: a standard deviation of ${100 * assumedJarSpread} points of recovery is taken for each flask (a decision of this program). Two iodine blanks or more show it, replicates hold it in their scatter.`,
				]
			: []),
	];
}

/** Decisions of ours that are switches, as they were taken. */
export function decisionSentences({ decisions }: Comparison): string[] {
	const taken = decisions
		.filter((d) => d.idle === "")
		.map(
			({ name, taken, usual }) =>
				`${name} ${taken}${taken === usual ? "" : ` (usually ${usual})`}`,
		);
	return taken.length === 0
		? []
		: [
				`Decided, as a laboratory may decide otherwise: ${taken.join("; ")}. A table of its own shows what each of these moves.`,
			];
}

export function demandSentences({ compared }: Comparison): string[] {
	const suspected = compared.flatMap(({ flask: { demand } }) =>
		demand.is === "suspected" && !isLimited(demand.ceiling)
			? [demand.looksLike]
			: [],
	);
	if (suspected.length === 0) return [];
	return suspected.every((looksLike) => looksLike === "more uptake")
		? [
				'What is left of a soak may consume iodine and look like uptake. Where no leachate, rinsing or reading limits that, some words are not said: "higher" where it is the treated char\'s soak, "lower" where it is the control\'s, "no difference that matters" where it is either\'s. That a treated char with such a soak is "lower" stands.',
			]
		: [
				'What is left of a soak may consume iodine and look like uptake, or free iodine and look like less uptake. Where no leachate, rinsing or reading limits that, no word is said that it could have feigned: neither "higher" nor "lower" where the treated char or its control may only seem so, and not "no difference that matters" where either is in doubt.',
			];
}

/** What the intervals leave room for, and what that rests on; the factors are decisions of ours. */
export function allowanceSentences({ verdicts }: Comparison): string[] {
	return verdicts.flatMap(({ treatment, control, soakAllowance: a }) => {
		if (a.steps.length === 0 || !a.complete) return [];
		const room =
			a.low > 0 || a.high > 0
				? `may have ${raisedOrLowered(a)}; the interval of the difference leaves room for that, and the word is read from it`
				: "can have changed nothing";
		return [
			`What is left of the soaks of ${quoted(treatment)} and ${quoted(control)} ${room}. This rests on: ${a.steps.join("; ")}. The factors in it are decisions of this program.`,
		];
	});
}

export function deviationSentences({ deviations }: Comparison): string[] {
	return [
		...(deviations.flasks.length > 0
			? [
					`Deviations touched ${flasksNamed(deviations.flasks)}; the main word handles them as the sheet says. Beside it stand the words with all of them kept and with all of them left out.`,
				]
			: []),
		...(deviations.elsewhere.length > 0
			? [
					`Deviations also touched ${listed(deviations.elsewhere)}; where the sheet leaves these out, nothing is computed with them.`,
				]
			: []),
	];
}
