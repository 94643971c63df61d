import { listed, plainNumber } from "../quantity";
import type { Differences } from "./differences";
import type { Observations } from "./observations";
import type { Portions } from "./portions";
import type { Footing } from "./scope";
import type { Spread } from "./spread";
import { soaksRecorded } from "./units";
import { capital, counted, flasksNamed, percent, roughly } from "./words";

/** What the method is told from. */
export interface MethodGround {
	readonly observations: Observations;
	readonly footing: Footing;
	readonly spread: Spread;
	readonly differences: Differences;
	readonly portions: Portions;
	readonly margin: number;
	readonly alpha: number;
}

function unitSentences({ observations, footing }: MethodGround): string[] {
	const { list } = observations;
	const recorded = soaksRecorded(list);
	const sentences: string[] = [];
	switch (footing.scope) {
		case "treatment":
			sentences.push(
				"Unit: the soak (or firing). Titrations are averaged within the flask and flasks within the soak; each soak counts once, however many flasks it has.",
			);
			break;
		case "these lots":
			sentences.push(
				recorded
					? "Unit: the flask, because too few soaks were made to see how one differs from the next. The verdicts are about these lots of char, not about the treatments."
					: "Unit: the flask, because soaks are not recorded. The verdicts are about these lots of char, not about the treatments.",
			);
			break;
		case "measuring error only":
			sentences.push(
				"Unit: the flask. No group is repeated, so that there is no scatter to judge by: only the measuring errors, carried through from the readings, are covered.",
			);
	}
	if (footing.scope === "treatment") {
		const missing = list.filter((o) => o.flask.flask.soak === "");
		if (missing.length > 0)
			sentences.push(
				`No soak is recorded for ${flasksNamed(missing.map((o) => o.name))}: within a treatment they are taken as one soak.`,
			);
		const batches = new Map<string, Set<string>>();
		for (const { treatment, flask } of list)
			if (flask.flask.soak !== "") {
				const key = `${flask.flask.soak} of ${treatment}`;
				batches.set(
					key,
					(batches.get(key) ?? new Set()).add(flask.flask.charBatch),
				);
			}
		for (const [soak, found] of batches)
			if (found.size > 1)
				sentences.push(
					`Soak ${soak} holds char of several batches (${listed([...found].map((b) => b || "not recorded"))}) and is taken as one soak: if they were several, give them names of their own.`,
				);
	}
	return sentences;
}

function modelSentences({
	observations,
	footing,
	spread,
}: MethodGround): string[] {
	const { model } = footing;
	const days = model.days.length;
	const dayRecorded = observations.list.some((o) => o.flask.flask.day !== "");
	const blocks =
		days > 1
			? `Days are blocks: uptake = treatment + day + scatter, by least squares (${model.days.map((d) => d || "day not recorded").join(", ")}); a soak whose flasks lie on several days takes the mean of theirs. Differences are adjusted for days, group means are not.`
			: dayRecorded
				? "All flasks that gave values were measured on one day, so that there are no blocks."
				: "Days are not recorded, so that a difference between days cannot be taken out.";
	if (spread.degreesOfFreedom === 0) return [blocks];
	return [
		blocks,
		`Scatter: one pooled standard deviation between units, ${roughly(spread.deviation)} mg/g with ${counted(spread.degreesOfFreedom, "degree")} of freedom${days > 1 ? " (units less treatments less days, plus one)" : ""}, taken to be the same in every treatment.`,
		...(spread.fromReadings
			? [
					"The units agree better than their reading errors allow, so that the reading errors were taken for the spread.",
				]
			: []),
		"The scatter holds the independent reading errors already; only errors that several flasks share (standardisation, blanks, calibrations) are added, with their signs, so that what moves treated and control alike cancels.",
	];
}

function intervalSentences({
	differences,
	margin,
	alpha,
}: MethodGround): string[] {
	const { joint, family } = differences;
	const level = percent(1 - alpha);
	const df = joint.degreesOfFreedom;
	const sentences =
		family.length === 0
			? []
			: [
					`The ${level} intervals hold for ${family.length === 1 ? "the one difference" : `all ${family.length} differences together`} (many treatments against a control, two-sided, ${Number.isFinite(df) ? `multivariate t with ${plainNumber(Number(df.toPrecision(3)))} degrees of freedom` : "multivariate normal"}, critical value ${plainNumber(Number(joint.criticalValue.toPrecision(4)))}), with the correlation that common controls and shared errors give them; p is adjusted likewise.`,
				];
	return [...sentences, orderSentence({ margin, alpha })];
}

/** The order in which words are tried, and which rule of equivalence was used. */
export function orderSentence({
	margin,
	alpha,
}: Pick<MethodGround, "margin" | "alpha">): string {
	return `Order of the words, with a margin of ${plainNumber(margin)} mg/g set beforehand: interval inside plus or minus the margin, "no difference that matters"; else leaving out zero, "higher" or "lower"; else "cannot tell". Absence of a difference is judged by the ${percent(1 - alpha)} simultaneous interval, which is stricter than two one-sided tests at ${percent(alpha)} (a ${percent(1 - 2 * alpha)} interval).`;
}

/** C(n, k) for small numbers. */
function combinations(n: number, k: number): number {
	let c = 1;
	for (let i = 1; i <= k; i++) c = (c * (n - k + i)) / i;
	return c;
}

function rankSentences({
	footing,
	differences,
	alpha,
}: MethodGround): string[] {
	if (footing.scope === "measuring error only") return [];
	const count = (t: string): number =>
		footing.model.units.filter((u) => u.treatment === t).length;
	const pairs = differences.family
		.map(({ pair }) => [count(pair.treatment), count(pair.control)])
		.filter(([a, b]) => a > 0 && b > 0);
	if (pairs.length === 0) return [];
	const smallest = pairs.map(([a, b]) => 2 / combinations(a + b, a));
	const best = smallest.indexOf(Math.min(...smallest));
	const p = Math.min(1, smallest[best]);
	if (p * pairs.length <= alpha) return [];
	return [
		`No rank or permutation test is given: with ${pairs[best][0]} units against ${pairs[best][1]} the smallest p that one can reach is ${roughly(p)}, before adjusting for ${counted(pairs.length, "treatment")}.`,
	];
}

function residueSentence(): string {
	return 'No isotherm was used. "Higher" is said only where the treated char stands at an equal or lower residue than its control, "lower" only at an equal or higher one (equal: within the expanded measuring uncertainty of the difference, k = 2, or within 5 %); "no difference that matters" only where the residues are within a factor of 1.25 (with 1/n = 0.2 that means 4.6 % of the uptake) or equal within measuring uncertainty. These limits are decisions of this program.';
}

function boundSentences({ observations }: MethodGround): string[] {
	const bounds = observations.list.filter((o) => o.side !== "value");
	return bounds.length === 0
		? []
		: [
				`${capital(flasksNamed(bounds.map((o) => o.name)))} gave only a bound: bounds stay out of the spread. A verdict of their group is said only if it holds without them and with them at their limit, and only on the side that a bound can prove; a group of bounds alone is set at its limit, less the expanded uncertainty (k = 2) of that limit, against its control with the spread borrowed from the other units.`,
			];
}

export function demandSentence({
	observations,
}: Pick<MethodGround, "observations">): string[] {
	const suspected = observations.list.flatMap(({ flask: { demand } }) =>
		demand.is === "suspected" ? [demand.looksLike] : [],
	);
	if (suspected.length === 0) return [];
	return suspected.every((looksLike) => looksLike === "more uptake")
		? [
				'What is left of a soak may consume iodine and look like uptake. Where it may and no leachate measured it, a treated char is not called "higher", a control does not make a treated char "lower", and neither allows "no difference that matters"; that such a treated char is "lower" stands.',
			]
		: [
				'What is left of a soak may consume iodine and look like uptake, or free iodine and look like less uptake. Where it may and no leachate measured it, no word is said that it could have feigned: "higher" and "lower" each where treated char or control could only seem so, and "no difference that matters" where either could be in doubt.',
			];
}

export function deviationSentences({
	portions,
}: Pick<MethodGround, "portions">): string[] {
	return [
		...(portions.flasks.length > 0
			? [
					`Deviations touched ${flasksNamed(portions.flasks)}; the words are given with all of them kept and with all of them left out, beside the main one, which handles them as the sheet says.`,
				]
			: []),
		...(portions.elsewhere.length > 0
			? [
					`Deviations also touched ${listed(portions.elsewhere)}; where the sheet leaves these out, nothing is computed with them.`,
				]
			: []),
	];
}

/** How the comparison was done, in sentences; every rule that is a decision of ours is among them. */
export function methodSentences(g: MethodGround): string[] {
	return [
		...unitSentences(g),
		...modelSentences(g),
		...intervalSentences(g),
		residueSentence(),
		...boundSentences(g),
		...demandSentence(g),
		...deviationSentences(g),
		...rankSentences(g),
		...(g.spread.degreesOfFreedom > 0
			? [
					"Numbers of replicates are reckoned with the upper 80 % confidence limit of the spread and the margin, never with the difference just observed; the critical value is taken as if the differences were uncorrelated, which can only ask for more.",
				]
			: []),
	];
}
