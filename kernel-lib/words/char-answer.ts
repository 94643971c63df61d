import {
	type CharProperty,
	charProperties,
	contentsOf,
	type GramOfChar,
	type GramPart,
	gramsOfChar,
	labelOf,
	type PropertyName,
	type PropertySheet,
	placesOf,
	type ShareOfGram,
	shareText,
	toBasis,
} from "../properties";
import {
	exact,
	expandedNumbers,
	fixed,
	input,
	listed,
	quoted,
	stated,
	type Table,
	table,
} from "../quantity";
import type { AnswerInWords } from "./answer-words";
import { capital } from "./wording";

function sentenceStart(text: string): string {
	return text.startsWith("pH") ? text : capital(text);
}

function resultText(p: CharProperty): string {
	const { outcome, interval } = p;
	if (outcome.is === "not known") return `${labelOf(p)} not determined`;
	const { quantity } = outcome;
	const places = placesOf(p);
	const unit =
		quantity.unit === "1" || quantity.unit === "pH" ? "" : ` ${quantity.unit}`;
	if (outcome.is !== "value")
		return `${labelOf(p)} ${outcome.is} ${places(quantity.value)}${unit}`;
	if (interval.is === "not known")
		return `${labelOf(p)} ${places(quantity.value)}${unit} (determined once)`;
	return `${labelOf(p)} ${places(quantity.value)}${unit} (${places(interval.lower)} to ${places(interval.upper)})`;
}

/** What is asked for first. */
const foremost: readonly CharProperty["property"][] = [
	"moisture",
	"total ash",
	"volatile matter",
	"apparent density",
];

/** The foremost properties of a char that were determined; the first three of the others where none of them was. */
function foremostOf(own: readonly CharProperty[]): readonly CharProperty[] {
	const first = own.filter((p) => foremost.includes(p.property));
	return first.length > 0 ? first : own.slice(0, 3);
}

/** More chars than this are told by the lowest and the highest of them. Our decision. */
export const mostChars = 3;

interface SharesOf {
	readonly sample: string;
	readonly share: ShareOfGram;
}

/** One part of the gram of every char that has it. */
function sharesOf(
	grams: readonly GramOfChar[],
	part: GramPart,
): readonly SharesOf[] {
	return grams.flatMap(({ sample, shares }) =>
		shares.filter((s) => s.part === part).map((share) => ({ sample, share })),
	);
}

/** "81 % ("water") and 71 % ("potash")"; of many from the lowest to the highest. */
function eachText(list: readonly SharesOf[], withNames = true): string {
	if (list.length <= mostChars)
		return listed(
			list.map(
				({ sample, share }) =>
					`${shareText(share)}${withNames ? ` (${quoted(sample)})` : ""}`,
			),
		);
	const sorted = [...list].sort(
		(a, b) => a.share.share.in("%") - b.share.share.in("%"),
	);
	return `${eachText([sorted[0]])} to ${eachText(sorted.slice(-1))}, ${list.length} chars`;
}

const basisText: Readonly<Record<GramOfChar["basis"], string>> = {
	"as weighed": "a gram as weighed",
	dry: "a dry gram",
};

/** What ash does to an uptake: it weighs, and is reckoned to take up nothing, so that a dry gram takes up less than its carbon by just that share. Names go without saying where they stand in the same order just before. */
function ashText(
	properties: readonly CharProperty[],
	before: readonly SharesOf[],
): string {
	const dry = sharesOf(
		gramsOfChar(properties.filter((p) => p.property !== "moisture")),
		"total ash",
	);
	if (dry.length === 0)
		return "ash was not determined, so what it does to the uptake is not known";
	const named =
		dry.length > mostChars ||
		dry.map((d) => d.sample).join("\n") !==
			before.map((b) => b.sample).join("\n");
	return `ash alone lowers the uptake of a dry gram by ${eachText(dry, named)}`;
}

/** Determinations that disagree by more than their limit. */
function unsettledText(properties: readonly CharProperty[]): string[] {
	const apart = properties.filter((p) => p.agreement.is === "beyond the limit");
	if (apart.length === 0) return [];
	const [verb, whose] = apart.length === 1 ? ["is", "its"] : ["are", "their"];
	return [
		`${listed(apart.map((p) => `${labelOf(p)} of ${quoted(p.sample)}`))} ${verb} not settled: ${whose} determinations disagree`,
	];
}

/** What was found where no gram can be taken apart: the foremost properties of each char. */
function propertiesText(
	samples: readonly string[],
	properties: readonly CharProperty[],
): string {
	if (samples.length > mostChars)
		return `Properties of ${samples.length} chars, as the table says`;
	return samples
		.map(
			(sample) =>
				`${quoted(sample)}: ${foremostOf(
					properties.filter((p) => p.sample === sample),
				)
					.map(resultText)
					.join(", ")}`,
		)
		.join("; ");
}

/** The sentence at the head: how much of a gram is carbon, and what the rest does to the uptake. */
export function charFinding(properties: readonly CharProperty[]): string {
	if (properties.length === 0) return "No property was determined.";
	const grams = gramsOfChar(properties);
	const carbon = sharesOf(grams, "fixed carbon");
	const hasAsh = properties.some((p) => p.property === "total ash");
	return [
		carbon.length === 0
			? propertiesText(
					grams.map((g) => g.sample),
					properties,
				)
			: `Fixed carbon in ${basisText[grams[0].basis]}: ${eachText(carbon)}`,
		...(carbon.length > 0 || hasAsh ? [ashText(properties, carbon)] : []),
		...unsettledText(properties),
	]
		.join("; ")
		.concat(".");
}

/** A property's value with its interval, without its name; "" where it was not determined. */
function cellOf(own: readonly CharProperty[], name: PropertyName): string {
	const found = own.find((p) => p.property === name && p.at === "");
	if (found === undefined || found.outcome.is === "not known") return "";
	return resultText(found).replace(`${name} `, "").replace(" %", "");
}

/** What an uptake of 100 mg per dry gram is per gram of what is neither water nor ash. */
function withoutAsh(own: readonly CharProperty[]): string {
	const { ash } = contentsOf(own, own[0].sample);
	if (ash === undefined) return "";
	const without = toBasis(hundred, "dry", "dry, ash-free", { ash }).to("mg/g");
	const once = own.some(
		(p) => p.property === "total ash" && p.covers === "one determination",
	);
	return once
		? `${fixed(without.value, 1)} (determined once)`
		: expandedNumbers(without);
}

const hundred = input("uptake", 100, "mg/g", exact, {
	symbol: "100 mg/g",
	source: stated("an uptake to show what a change of basis does"),
});

function charTable(properties: readonly CharProperty[]): Table {
	const samples = [...new Set(properties.map((p) => p.sample))];
	return table(
		"",
		[
			"char",
			"moisture, as weighed (%)",
			"ash, of dry char (%)",
			"100 mg/g of dry char, its ash left out (mg/g)",
		],
		samples.map((sample) => {
			const own = properties.filter((p) => p.sample === sample);
			return [
				sample,
				cellOf(own, "moisture"),
				cellOf(own, "total ash"),
				withoutAsh(own),
			];
		}),
	);
}

/**
 * The answer of a table of properties: how much of a gram of each char is fixed carbon, what its ash does to an uptake per gram, and which determinations disagree; the table beside it has moisture and ash with 95 % intervals. All of it stands in the table of charProperties.
 * @example
 * const row = { determination: "P1", sample: "my char", property: "pH", pH: 9.1 };
 * words.charAnswer(properties.propertiesFromRows([row])).finding // => "\"my char\": pH 9.10 (determined once)."
 */
export function charAnswer(sheet: PropertySheet): AnswerInWords {
	const properties = charProperties(sheet);
	const hasIntervals = properties.some((p) => p.interval.is === "interval");
	return {
		finding: charFinding(properties),
		table: charTable(properties),
		statements: [
			...sheet.deviations,
			...(hasIntervals ? ["In brackets: 95 % intervals."] : []),
			...(properties.some((p) => p.property === "total ash")
				? [
						"Ash is reckoned as taking up nothing: that is how the basis is defined, and was not measured here.",
					]
				: []),
		],
	};
}

/**
 * What to do next: replicates that are missing or disagree, sieves that do not reach, what was lost. Empty where nothing needs doing.
 * @example
 * const row = { determination: "P1", sample: "my char", property: "pH", pH: 9.1 };
 * words.charNextSteps(properties.propertiesFromRows([row])) // => ["Determine a second time, on another portion: pH of \"my char\"."]
 */
export function charNextSteps(sheet: PropertySheet): string[] {
	const properties = charProperties(sheet);
	const once = properties.filter(
		(p) =>
			p.agreement.is === "one determination" && p.property !== "fixed carbon",
	);
	const named = (list: readonly CharProperty[]): string =>
		list.map((p) => `${labelOf(p)} of ${quoted(p.sample)}`).join(", ");
	return [
		...properties
			.filter((p) => p.agreement.is === "beyond the limit")
			.map(
				(p) =>
					`${sentenceStart(labelOf(p))} of ${quoted(p.sample)}: ${p.agreement.sentence} ${p.agreement.advice}`,
			),
		...(once.length > 0
			? [`Determine a second time, on another portion: ${named(once)}.`]
			: []),
		...properties.flatMap((p) =>
			p.outcome.is === "value"
				? []
				: [
						`${sentenceStart(labelOf(p))} of ${quoted(p.sample)}: ${p.outcome.because}.`,
					],
		),
		...sheet.cautions,
	];
}
