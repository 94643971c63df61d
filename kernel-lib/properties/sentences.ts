import { type Table, table } from "../quantity";
import { type CharProperty, placesOf } from "./char-properties";
import { labelOf, type PropertySheet } from "./determinations";
import type { UptakeOnBasis, UptakePerGram } from "./uptake-basis";

function sentenceStart(text: string): string {
	return text.startsWith("pH")
		? text
		: text.charAt(0).toUpperCase() + text.slice(1);
}

function resultText(p: CharProperty): string {
	const { outcome, interval } = p;
	if (outcome.is === "not determined") return `${labelOf(p)} not determined`;
	const { quantity } = outcome;
	const places = placesOf(p);
	const unit =
		quantity.unit === "1" || quantity.unit === "pH" ? "" : ` ${quantity.unit}`;
	if (outcome.is !== "value")
		return `${labelOf(p)} ${outcome.is} ${places(quantity.value)}${unit}`;
	if (interval.is === "none")
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
function told(own: readonly CharProperty[]): readonly CharProperty[] {
	const first = own.filter((p) => foremost.includes(p.property));
	return first.length > 0 ? first : own.slice(0, 3);
}

/** A short sentence for each char: moisture, ash, volatile matter and density, as far as they were determined, with 95 % intervals; what disagrees is said. All of it stands in `propertyTable`. */
export function propertySentences(
	properties: readonly CharProperty[],
): string[] {
	return [...new Set(properties.map((p) => p.sample))].map((sample) => {
		const own = properties.filter((p) => p.sample === sample);
		const shown = told(own);
		const beyond = own.filter((p) => p.agreement.is === "beyond the limit");
		return `${sample}: ${shown.map(resultText).join(", ")}${shown.some((p) => p.interval.is === "interval") ? "; in brackets the 95 % intervals" : ""}.${beyond.length > 0 ? ` The determinations of ${beyond.map((p) => p.property).join(", ")} disagree by more than the limit.` : ""}`;
	});
}

/** What to do next: replicates that are missing or disagree, sieves that do not reach, what was lost. Empty where nothing needs doing. */
export function propertyAdvice(
	sheet: PropertySheet,
	properties: readonly CharProperty[],
): string[] {
	const once = properties.filter(
		(p) =>
			p.agreement.is === "one determination" && p.property !== "fixed carbon",
	);
	const named = (list: readonly CharProperty[]): string =>
		list.map((p) => `${labelOf(p)} of ${p.sample}`).join(", ");
	return [
		...properties
			.filter((p) => p.agreement.is === "beyond the limit")
			.map(
				(p) =>
					`${sentenceStart(labelOf(p))} of ${p.sample}: ${p.agreement.sentence} ${p.agreement.advice}`,
			),
		...(once.length > 0
			? [`Determine a second time, on another portion: ${named(once)}.`]
			: []),
		...properties.flatMap((p) =>
			p.outcome.is === "value"
				? []
				: [
						`${sentenceStart(labelOf(p))} of ${p.sample}: ${p.outcome.because}.`,
					],
		),
		...sheet.cautions,
	];
}

/** What every row came to, in the order in which it was worked out. */
export function determinationTable(sheet: PropertySheet): Table {
	return table(
		"Row by row",
		["determination", "char", "property", "result"],
		sheet.determinations.map((d) => [
			d.name,
			d.sample,
			labelOf(d),
			d.outcome.is === "not determined" ? d.outcome.is : d.outcome,
		]),
		["The uncertainty of a row is that of its readings alone."],
	);
}

/** The uptakes of flasks beside what they are on another basis. */
export function uptakeBasisTable(
	converted: readonly UptakeOnBasis<
		UptakePerGram & {
			readonly flask: { readonly name: string; readonly treatment: string };
		}
	>[],
): Table {
	return table(
		"Uptake per gram of what",
		[
			"flask",
			"treatment",
			"per gram of",
			"uptake (mg/g)",
			"basis asked for",
			"on that basis (mg/g)",
		],
		converted.map(({ of, basis, uptake }) => [
			of.flask.name,
			of.flask.treatment,
			of.perGram,
			of.uptake,
			basis,
			uptake,
		]),
		[
			"Flasks of one char share the errors of its moisture and ash. Per gram of dry, ash-free char answers how good the carbon is; per gram of product, how much a gram from the jar takes up.",
		],
	);
}
