import {
	type CharProperty,
	charProperties,
	labelOf,
	type PropertySheet,
	placesOf,
} from "../properties";
import { quoted } from "../quantity";

function sentenceStart(text: string): string {
	return text.startsWith("pH")
		? text
		: text.charAt(0).toUpperCase() + text.slice(1);
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

/**
 * A short sentence for each char: moisture, ash, volatile matter and density, as far as they were determined, with 95 % intervals; what disagrees and what was left out is said. All of it stands in the table of charProperties.
 * @example
 * const row = { determination: "P1", sample: "my char", property: "pH", pH: 9.1 };
 * words.charAnswer(properties.propertiesFromRows([row])) // => ["\"my char\": pH 9.10 (determined once)."]
 */
export function charAnswer(sheet: PropertySheet): string[] {
	const properties = charProperties(sheet);
	const sentences = sheet.samples.map((sample) => {
		const own = properties.filter((p) => p.sample === sample);
		const shown = foremostOf(own);
		const beyond = own.filter((p) => p.agreement.is === "beyond the limit");
		return `${quoted(sample)}: ${shown.map(resultText).join(", ")}${shown.some((p) => p.interval.is === "interval") ? "; in brackets the 95 % intervals" : ""}.${beyond.length > 0 ? ` The determinations of ${beyond.map((p) => p.property).join(", ")} disagree by more than the limit.` : ""}`;
	});
	return [...sentences, ...sheet.deviations];
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
