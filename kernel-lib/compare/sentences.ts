import { decimalsFor, fixed, listed, plainNumber } from "../quantity";
import { soakMay } from "../uptake";
import { type Judgement, limitOf } from "./judgement";
import { lossesOf, perGramOf } from "./likeness";
import type { Observation } from "./observations";
import { contradicted } from "./obstacles";
import { probeBlank, probeOf } from "./probe";
import { suspicionOf } from "./suspicion";
import type { Replicates, VerdictScope, VerdictWord } from "./verdict";
import type { Interval } from "./word";
import {
	capital,
	counted,
	flasksNamed,
	percent,
	placesFor,
	sentence,
} from "./words";

/** Everything that the sentences of one verdict are made of. */
export interface Telling {
	readonly judgement: Judgement;
	readonly scope: VerdictScope;
	/** Where both stand while they are compared, as in "at 2.5 g/L iodine left"; "" where each stands at its own residue. */
	readonly place: string;
	readonly margin: number;
	readonly alpha: number;
	readonly replicates: Replicates;
	readonly list: readonly Observation[];
	/** Units (soaks or flasks) of the treatment and of its control that gave values. */
	readonly treatedUnits: number;
	readonly controlUnits: number;
	/** Words with the deviating flasks kept and left out, and which flasks these are. */
	readonly kept: VerdictWord;
	readonly leftOut: VerdictWord;
	readonly deviating: readonly string[];
	readonly happened: readonly string[];
}

function flasksOfPair(t: Telling): Observation[] {
	const { treatment, control } = t.judgement.pair;
	return t.list.filter(
		(o) => o.treatment === treatment || o.treatment === control,
	);
}

function intervalText(
	{ low, high }: Interval,
	places: number,
	alpha: number,
	opening = "",
): string {
	return `${percent(1 - alpha)} interval ${opening}${fixed(low, places)} to ${fixed(high, places)}`;
}

function marginText(margin: number): string {
	return `${plainNumber(margin)} mg/g`;
}

/** "higher than its control by 64 mg/g (95 % interval 41 to 87), more than the 25 mg/g that would matter" */
function differenceText(t: Telling): string {
	const { judgement: j, margin, alpha } = t;
	const d = j.difference;
	const measuring = t.scope === "measuring error only";
	const word = measuring
		? `${j.word} than measuring error explains, against its control`
		: `${j.word} than its control`;
	const certainty = j.exceedsMargin
		? `more than the ${marginText(margin)} that would matter`
		: `whether it is more than the ${marginText(margin)} that would matter is open`;
	if (d.is === "one-sided") {
		const limit = Math.abs(limitOf(d));
		const places = Math.max(0, decimalsFor(limit / 4));
		return `${word} by at least ${fixed(limit, places)} mg/g, ${certainty}; ${flasksNamed(d.flasks)} gave only a bound`;
	}
	if (d.is === "missing") return word;
	const { low, high } = d.interval;
	const places = placesFor(low, high, [0, margin, -margin]);
	const shown: Interval =
		j.word === "lower" ? { low: -high, high: -low } : { low, high };
	return `${word} by ${fixed(Math.abs(d.estimate), places)} mg/g (${intervalText(shown, places, alpha, measuring ? "of the measuring error " : "")}), ${certainty}`;
}

function noDifferenceText(t: Telling): string {
	const d = t.judgement.difference;
	if (d.is !== "interval") return "no difference that matters";
	const { low, high } = d.interval;
	const places = placesFor(low, high, [0, t.margin, -t.margin]);
	const measuring =
		t.scope === "measuring error only"
			? ", as far as measuring error goes"
			: "";
	return `no difference that matters from its control${measuring} (${fixed(d.estimate, places)} mg/g, ${intervalText(d.interval, places, t.alpha)}; ${marginText(t.margin)} would matter)`;
}

function replicatesText(r: Replicates): string {
	switch (r.is) {
		case "number":
			return `; ${counted(r.units, "soak")} of each treatment would tell`;
		case "at least":
			return `; at least ${counted(r.units, "soak")} of each treatment would be needed to tell`;
		default:
			return "";
	}
}

/** What stands in the way, a suspected demand included even where another obstacle already took the word away. */
function headlinesOf(t: Telling): string[] {
	const { obstacles, pair } = t.judgement;
	const suspicion = suspicionOf(t.list, pair.treatment);
	const demand =
		suspicion.flasks.length > 0
			? [`what is left of its soak ${soakMay[suspicion.looksLike]}`]
			: [];
	return [...new Set([...obstacles.map((o) => o.headline), ...demand])];
}

/** What the remains of the treated char's soak may have done to numbers that did not yield the word they could feign. */
function pendingSuspicions(t: Telling): string[] {
	const { numbersSay, difference, pair } = t.judgement;
	if (difference.is !== "interval") return [];
	return (
		[
			["more uptake", "lower", "less"],
			["less uptake", "higher", "more"],
		] as const
	).flatMap(([looksLike, word, truly]) => {
		if (numbersSay !== "cannot tell" && numbersSay !== word) return [];
		const { flasks, because } = suspicionOf(t.list, pair.treatment, looksLike);
		return flasks.length === 0
			? []
			: [
					sentence(
						`What is left of the treated char's soak ${soakMay[looksLike]} (${flasksNamed(flasks)}: ${listed(because)}): its uptake may be ${truly} than the numbers say`,
					),
				];
	});
}

function cannotTellText(t: Telling): string {
	const { judgement: j, margin, alpha } = t;
	if (j.obstacles.length > 0) return `cannot tell: ${listed(headlinesOf(t))}`;
	const d = j.difference;
	if (d.is !== "interval") return "cannot tell";
	const { low, high } = d.interval;
	const places = placesFor(low, high, [0, margin, -margin]);
	return `cannot tell whether it differs from its control (${fixed(d.estimate, places)} mg/g, ${intervalText(d.interval, places, alpha)}, takes in zero and reaches past the ${marginText(margin)} that would matter)${replicatesText(t.replicates)}`;
}

function scopeOpening(scope: VerdictScope): string {
	return scope === "these lots" ? "in these lots, " : "";
}

function batchesOf(list: readonly Observation[], treatment: string): string[] {
	return [
		...new Set(
			list
				.filter((o) => o.treatment === treatment)
				.map((o) => o.flask.flask.charBatch),
		),
	].sort();
}

/** ", for char batch A": said where all of the treated char came from one recorded batch, since the verdict is about it and no other. */
function batchClosing(t: Telling): string {
	const batches = batchesOf(t.list, t.judgement.pair.treatment);
	return batches.length === 1 && batches[0] !== ""
		? `; this is about char batch ${batches[0]}`
		: "";
}

/** The sentence for the head of the page. */
export function verdictSentence(t: Telling): string {
	const { word, pair } = t.judgement;
	const body =
		word === "cannot tell"
			? cannotTellText(t)
			: word === "no difference that matters"
				? noDifferenceText(t)
				: differenceText(t);
	const limits =
		word === "cannot tell"
			? ""
			: t.scope === "measuring error only"
				? "; nothing is said about the treatment, for its spread was not seen"
				: t.scope === "these lots"
					? "; the treatment was made once, so that nothing is said about making it again"
					: batchClosing(t);
	const deviations =
		t.kept !== t.leftOut
			? `. This depends on ${flasksNamed(t.deviating)}, touched by a deviation: "${t.kept}" with, "${t.leftOut}" without`
			: "";
	return sentence(
		`${pair.treatment}: ${scopeOpening(t.scope)}${t.place === "" ? "" : `${t.place}, `}${body}${limits}${deviations}`,
	);
}

function deviationReasons(t: Telling): string[] {
	if (t.deviating.length === 0) return [];
	const what = listed(t.happened.map((h) => `"${h}"`));
	return t.kept === t.leftOut
		? [
				sentence(
					`The word is the same with and without what a deviation touched: ${flasksNamed(t.deviating)}, ${what}`,
				),
			]
		: [
				`THE DEVIATION DECIDES: with ${flasksNamed(t.deviating)} kept the word is "${t.kept}", left out it is "${t.leftOut}" (${what}). Repeat what was touched before relying on either.`,
			];
}

function scopeReasons(t: Telling): string[] {
	const { pair, difference } = t.judgement;
	if (difference.is === "missing") return [];
	switch (t.scope) {
		case "measuring error only":
			return [
				"No group holds more flasks than the comparison uses up, so that only the measuring error is covered: how far one flask, or one soak, differs from the next was not seen.",
			];
		case "these lots":
			return [
				"No treatment was made more than once as far as the sheet says, so that flasks are the units and the verdict is about these lots of char: flasks of one soak are not replicates of the treatment.",
			];
		case "treatment":
			return [
				{ name: pair.treatment, units: t.treatedUnits },
				{ name: pair.control, units: t.controlUnits },
			]
				.filter((g) => g.units === 1)
				.map(
					(g) =>
						`"${g.name}" has a single soak: its spread is borrowed from the treatments with several.`,
				);
	}
}

function batchReasons(t: Telling): string[] {
	const { treatment, control } = t.judgement.pair;
	if (t.judgement.difference.is === "missing") return [];
	const treated = batchesOf(t.list, treatment);
	const untreated = batchesOf(t.list, control);
	if (treated.includes("") || untreated.includes(""))
		return [
			"The char batch is not recorded for all flasks: the verdict is about the char at hand.",
		];
	const apart =
		treated.every((b) => !untreated.includes(b)) && treated.length > 0;
	const reasons: string[] = [];
	if (apart)
		reasons.push(
			`Treated and control char came from different batches (${listed(treated)} against ${listed(untreated)}): a difference between batches looks like one of the treatment.`,
		);
	if (treated.length === 1)
		reasons.push(
			`All of the treated char came from batch ${treated[0]}: another batch may answer differently.`,
		);
	return reasons;
}

function numberReasons(t: Telling): string[] {
	const { judgement: j, margin } = t;
	const d = j.difference;
	if (
		d.is === "one-sided" &&
		d.side === "at least" &&
		suspicionOf(t.list, j.pair.treatment, "more uptake").flasks.length > 0
	)
		return [
			`${capital(flasksNamed(d.flasks))} used up all the iodine, part of which what is left of the soak may have consumed: the char's own share is not known even as a bound.`,
		];
	if (d.is === "one-sided") {
		const places = Math.max(
			0,
			decimalsFor((d.without.high - d.without.low) / 2),
		);
		const end = (i: Interval): string =>
			fixed(d.side === "at least" ? i.low : i.high, places);
		const ends = [end(d.without), end(d.atLimit)];
		const known =
			ends[0] === ends[1]
				? `${d.side} ${ends[0]} mg/g`
				: `${d.side} ${ends[0]} mg/g without, ${d.side} ${ends[1]} mg/g with every bound at its limit`;
		return [
			`${capital(flasksNamed(d.flasks))} gave only a bound, so that the difference is known on one side: ${known}.`,
		];
	}
	if (d.is === "missing") return [];
	const { low, high } = d.interval;
	switch (j.numbersSay) {
		case "no difference that matters":
			return low > 0 || high < 0
				? [
						`The interval leaves out zero, but lies inside plus or minus ${marginText(margin)}: the difference is there and too small to matter.`,
					]
				: [`The interval lies inside plus or minus ${marginText(margin)}.`];
		case "cannot tell":
			return [
				`The interval takes in zero and reaches past ${marginText(margin)}: neither a difference nor its absence is shown.`,
			];
		default:
			return [
				`The interval leaves out zero and ${j.numbersSay === "higher" ? (low > margin ? "lies wholly" : "lies partly") : high < -margin ? "lies wholly" : "lies partly"} beyond ${marginText(margin)}.`,
			];
	}
}

function residueReasons(t: Telling): string[] {
	const { judgement: j } = t;
	if (j.residues.is === "unknown" || j.word === "cannot tell") return [];
	const places = Math.max(
		0,
		decimalsFor(
			Math.max(j.residues.expandedUncertainty, j.residues.control / 100),
		) - 1,
	);
	return [
		`Mean residues: ${fixed(j.residues.treated, places)} mg/L treated, ${fixed(j.residues.control, places)} mg/L control; without an isotherm this allows the word.`,
	];
}

/** What is known of the flasks and weakens or explains the verdict without forbidding it. */
function recordReasons(t: Telling): string[] {
	const { pair } = t.judgement;
	const reasons: string[] = [];
	if (t.judgement.difference.is === "missing") return reasons;
	if (perGramOf(t.list, pair) === "char as weighed")
		reasons.push(
			"Uptakes are per gram as weighed: a difference in moisture looks like a difference in uptake.",
		);
	const losses = lossesOf(t.list, pair);
	if (losses === "included")
		reasons.push(
			`No ${probeBlank(t.list)}: both uptakes include losses of ${probeOf(t.list)}, which are taken to be alike in treated and control flasks.`,
		);
	if (losses === "by day")
		reasons.push(
			"Losses were taken off on some days only; treated and control were handled alike on each day, and days are in the model.",
		);
	reasons.push(...pendingSuspicions(t));
	reasons.push(...measuredDemands(t));
	const cautions = new Map<string, string[]>();
	for (const o of flasksOfPair(t))
		for (const text of o.flask.cautions)
			cautions.set(text, [...(cautions.get(text) ?? []), o.name]);
	for (const [text, names] of cautions)
		reasons.push(sentence(`${capital(flasksNamed(names))}: ${text}`));
	return reasons;
}

/** What the leachates did to the uptakes. */
function measuredDemands(t: Telling): string[] {
	const reasons: string[] = [];
	const flasks = (gave: "consumed" | "more"): string[] =>
		flasksOfPair(t).flatMap(({ name, flask: { demand } }) =>
			demand.is === "measured" && demand.mass.value < 0 === (gave === "more")
				? [name]
				: [],
		);
	const consumed = flasks("consumed");
	if (consumed.length > 0)
		reasons.push(
			`Iodine consumed by what is left of a soak was measured on a leachate and taken off (${flasksNamed(consumed)}).`,
		);
	const more = flasks("more");
	if (more.length > 0)
		reasons.push(
			`A leachate held a little more iodine than it was given, within its error, and as much was added to the uptake (${flasksNamed(more)}).`,
		);
	return reasons;
}

/** Why it is this word and no stronger one, the weightiest first. */
export function verdictReasons(t: Telling): string[] {
	const { obstacles, pair } = t.judgement;
	const stand = contradicted(t.list, pair).length === 0;
	return [
		...(t.kept !== t.leftOut ? deviationReasons(t) : []),
		...obstacles.map((o) => o.reason),
		...(stand ? numberReasons(t) : []),
		...scopeReasons(t),
		...residueReasons(t),
		...recordReasons(t),
		...batchReasons(t),
		...(t.kept === t.leftOut ? deviationReasons(t) : []),
	];
}
