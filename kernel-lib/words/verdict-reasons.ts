import {
	type Comparison,
	contradicted,
	type Difference,
	type Interval,
	lossesOf,
	perGramOf,
	suspicionOf,
	type TreatmentVerdict,
} from "../compare";
import { decimalsFor, fixed, listed, quoted } from "../quantity";
import { type FlaskUptake, soakMay } from "../uptake";
import { charBatchesOf } from "./char-batches";
import { curveReasons } from "./curve-reasons";
import { obstacleReason } from "./obstacle-words";
import { probeBlank } from "./probe-words";
import { capital, flasksNamed, marginText, sentence } from "./wording";

type Bound = Extract<Difference, { readonly is: "at least" | "at most" }>;
type Estimate = Extract<Difference, { readonly is: "estimate" }>;

/** Whether flasks of both were there to be compared at all. */
function wereCompared({ difference: d }: TreatmentVerdict): boolean {
	return !(d.is === "not available" && d.why === "nothing to compare");
}

function flasksOfPair(
	{ compared }: Comparison,
	{ treatment, control }: TreatmentVerdict,
): FlaskUptake[] {
	return compared
		.map((o) => o.flask)
		.filter(({ flask: { treatment: t } }) => t === treatment || t === control);
}

const namesOf = (flasks: readonly FlaskUptake[]): string =>
	flasksNamed(flasks.map((u) => u.flask.name));

function deviationReasons(c: Comparison, v: TreatmentVerdict): string[] {
	const { flasks, happened } = c.deviations;
	if (flasks.length === 0) return [];
	const what = listed(happened.map(quoted));
	return v.withDeviations === v.withoutDeviations
		? [
				sentence(
					`The word is the same with and without what a deviation touched: ${flasksNamed(flasks)}, ${what}`,
				),
			]
		: [
				`A deviation decides the word: with ${flasksNamed(flasks)} kept it is "${v.withDeviations}", left out it is "${v.withoutDeviations}" (${what}). Repeat what was touched before relying on either.`,
			];
}

function scopeReasons(c: Comparison, v: TreatmentVerdict): string[] {
	if (!wereCompared(v)) return [];
	switch (c.scope) {
		case "measuring error only":
			return [
				"There are too few flasks to see a scatter, so that only the measuring error is covered: how far one flask, or one soak, differs from the next was not seen.",
			];
		case "these lots":
			return [
				"As far as the sheet says, no treatment was made more than once. So flasks are the units, and the verdict is about these lots of char: flasks of one soak are not replicates of the treatment.",
			];
		case "treatment":
			return [
				{ name: v.treatment, units: v.units.treated },
				{ name: v.control, units: v.units.control },
			]
				.filter((g) => g.units === 1)
				.map(
					(g) =>
						`${quoted(g.name)} has a single soak: its spread is borrowed from the treatments with several.`,
				);
	}
}

function batchReasons(c: Comparison, v: TreatmentVerdict): string[] {
	if (!wereCompared(v)) return [];
	const treated = charBatchesOf(c, v.treatment);
	const untreated = charBatchesOf(c, v.control);
	if (treated.includes("") || untreated.includes(""))
		return [
			"The char batch is not recorded for all flasks: the verdict is about the char at hand.",
		];
	return [
		...(treated.length === 1
			? [
					`All of the treated char came from batch ${quoted(treated[0])}: another batch may answer differently.`,
				]
			: []),
	];
}

function boundReason({ is, flasks, without, atLimit }: Bound): string {
	const places = Math.max(0, decimalsFor((without.high - without.low) / 2));
	const end = (i: Interval): string =>
		fixed(is === "at least" ? i.low : i.high, places);
	const [first, last] = [end(without), end(atLimit)];
	const known =
		first === last
			? `${is} ${first} mg/g`
			: `${is} ${first} mg/g without, ${is} ${last} mg/g with every bound at its limit`;
	return `${capital(flasksNamed(flasks))} gave only a bound, so that the difference is known on one side: ${known}.`;
}

function intervalReason(
	c: Comparison,
	v: TreatmentVerdict,
	{ low, high }: Estimate,
): string {
	const { numbersSay, margin } = v;
	const text = marginText(c, v);
	if (margin.is === "not known" || text.is === "not known")
		return numbersSay === "cannot tell"
			? "The interval takes in zero: no difference is shown."
			: "The interval leaves out zero; without a margin it is not judged whether the difference matters.";
	switch (numbersSay) {
		case "no difference that matters":
			return low > 0 || high < 0
				? `The interval leaves out zero, but the difference lies within ${text.value} of zero: it is there and too small to matter.`
				: `The difference lies within ${text.value} of zero.`;
		case "cannot tell":
			return low > 0
				? `The interval leaves out zero and does not lie wholly beyond ${text.value}. It is shown to be higher, and not shown to be higher by as much as was claimed.`
				: `The interval takes in zero and reaches past ${text.value}: neither a difference nor its absence is shown.`;
		default: {
			const wholly =
				numbersSay === "higher" ? low > margin.value : high < -margin.value;
			return `The interval leaves out zero and lies ${wholly ? "wholly" : "partly"} beyond ${text.value}.`;
		}
	}
}

function numberReasons(c: Comparison, v: TreatmentVerdict): string[] {
	const d = v.difference;
	switch (d.is) {
		case "estimate":
			return [
				intervalReason(c, v, d),
				...(v.otherwise === v.word
					? []
					: [
							c.sameness === "one-sided tests"
								? `Judged by the simultaneous interval, which is stricter than two one-sided tests, the word would be "${v.otherwise}".`
								: `Judged by two one-sided tests, which are less strict than the simultaneous interval, the word would be "${v.otherwise}".`,
						]),
			];
		case "not available":
			return d.why === "soak remains"
				? [
						`${capital(flasksNamed(d.flasks))} used up all the iodine. What is left of the soak may have consumed part of it: the char's own share is not known even as a bound.`,
					]
				: [];
		default:
			return [boundReason(d)];
	}
}

function residueReasons({ residues, word }: TreatmentVerdict): string[] {
	if (residues.is === "unknown" || word === "cannot tell") return [];
	const { treated, control, expandedUncertainty } = residues;
	const places = Math.max(
		0,
		decimalsFor(Math.max(expandedUncertainty, control / 100)) - 1,
	);
	return [
		`Mean residues: ${fixed(treated, places)} mg/L treated, ${fixed(control, places)} mg/L control. The word holds for every slope that is allowed for.`,
	];
}

/** What the remains of the treated char's soak may have done to numbers that did not yield the word they could feign. */
function pendingSuspicions(c: Comparison, v: TreatmentVerdict): string[] {
	if (v.difference.is !== "estimate") return [];
	return (
		[
			["more uptake", "lower", "less"],
			["less uptake", "higher", "more"],
		] as const
	).flatMap(([looksLike, word, truly]) => {
		if (v.numbersSay !== "cannot tell" && v.numbersSay !== word) return [];
		const { flasks, because } = suspicionOf(c.compared, v.treatment, looksLike);
		return flasks.length === 0
			? []
			: [
					sentence(
						`What is left of the treated char's soak ${soakMay[looksLike]} (${flasksNamed(flasks)}: ${listed(because)}): its uptake may be ${truly} than the numbers say`,
					),
				];
	});
}

function likenessReasons(c: Comparison, v: TreatmentVerdict): string[] {
	const losses = lossesOf(c.compared, v);
	return [
		...(perGramOf(c.compared, v) === "char as weighed"
			? [
					"Uptakes are per gram as weighed: a difference in moisture looks like a difference in uptake.",
				]
			: []),
		...(losses === "included"
			? [
					`No ${probeBlank(c.probe)}: both uptakes include losses of ${c.probe}, which are taken to be alike in treated and control flasks.`,
				]
			: []),
		...(losses === "by day"
			? [
					"Losses were taken off on some days only; treated and control were handled alike on each day, and days are in the model.",
				]
			: []),
	];
}

/** Repeats that lie apart are named in their own sentence: blanks that many flasks share are told once. */
const isWhole = (text: string): boolean =>
	text.includes("further apart than reading them explains");

function flaskCautions(flasks: readonly FlaskUptake[]): string[] {
	const cautions = new Map<string, FlaskUptake[]>();
	for (const u of flasks)
		for (const text of u.cautions)
			cautions.set(text, [...(cautions.get(text) ?? []), u]);
	return [...cautions].map(([text, own]) =>
		sentence(isWhole(text) ? text : `${capital(namesOf(own))}: ${text}`),
	);
}

/** What the leachates did to the uptakes. */
function measuredDemands(flasks: readonly FlaskUptake[]): string[] {
	const measured = (gave: "consumed" | "more"): FlaskUptake[] =>
		flasks.filter(
			({ demand }) =>
				demand.is === "measured" && demand.mass.value < 0 === (gave === "more"),
		);
	const consumed = measured("consumed");
	const more = measured("more");
	return [
		...(consumed.length > 0
			? [
					`Iodine consumed by what is left of a soak was measured on a leachate and taken off (${namesOf(consumed)}).`,
				]
			: []),
		...(more.length > 0
			? [
					`A leachate held a little more iodine than it was given, within its error, and as much was added to the uptake (${namesOf(more)}).`,
				]
			: []),
	];
}

/** What is known of the flasks and weakens or explains the verdict without forbidding it. */
function recordReasons(c: Comparison, v: TreatmentVerdict): string[] {
	if (!wereCompared(v)) return [];
	const flasks = flasksOfPair(c, v);
	return [
		...likenessReasons(c, v),
		...pendingSuspicions(c, v),
		...measuredDemands(flasks),
		...flaskCautions(flasks),
	];
}

/** Why it is this word and no stronger one, each a full sentence, the weightiest first. */
export function verdictReasons(c: Comparison, v: TreatmentVerdict): string[] {
	const numbersStand = contradicted(c.compared, v).length === 0;
	const decides = v.withDeviations !== v.withoutDeviations;
	return [
		...(decides ? deviationReasons(c, v) : []),
		...v.obstacles.map(obstacleReason),
		...(numbersStand ? numberReasons(c, v) : []),
		...scopeReasons(c, v),
		...residueReasons(v),
		...recordReasons(c, v),
		...batchReasons(c, v),
		...(decides ? [] : deviationReasons(c, v)),
		...curveReasons(c, v),
	];
}
