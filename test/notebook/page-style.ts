/** What no page may show its reader: hyphens for minus signs, more digits than anything is known to, the words of a program for "no number", one sentence twice. */

/** Parts of a page that are not its own words: programs, formulas, and sheets as they were typed. */
const notProse = [
	/<(script|style|pre|code|math|svg)\b[\s\S]*?<\/\1>/g,
	/<table class="sheet">[\s\S]*?<\/table>/g,
	/<!--[\s\S]*?-->/g,
];

/** The workings of flasks: formulas in lines, which flasks have in common. */
const workings = /<section\b[^>]*aria-labelledby="flasks"[\s\S]*?<\/section>/g;

function unescaped(text: string): string {
	return text
		.replace(/&lt;/g, "<")
		.replace(/&gt;/g, ">")
		.replace(/&quot;/g, '"')
		.replace(/&#39;/g, "'")
		.replace(/&amp;/g, "&");
}

const blocks =
	/<\/?(?:p|div|h\d|li|ul|ol|table|thead|tbody|tr|th|td|caption|section|details|summary|figure|figcaption|header|main|footer|nav|br)\b[^>]*>/g;

/** The visible texts of a piece of a page, one a block. */
function texts(html: string): string[] {
	return notProse
		.reduce((left, part) => left.replace(part, " "), html)
		.replace(blocks, "\n")
		.replace(/<[^>]+>/g, "")
		.split("\n")
		.map((text) => unescaped(text).replace(/\s+/g, " ").trim())
		.filter((text) => text !== "");
}

/** Significant digits of a decimal number as it is written. */
const digitsOf = (number: string): number =>
	number.replace(".", "").replace(/^0+/, "").length;

/** More digits than any reading of a bench has; a value with its u may need as many. */
const mostDigits = 8;

interface Fault {
	readonly what: string;
	readonly found: string;
}

const faultsOfText: readonly (readonly [string, (text: string) => boolean])[] =
	[
		["a hyphen for a minus sign", (t) => /(^|[\s(=×+])-\d/.test(t)],
		["plus-minus, which says neither u nor which interval", (t) => /±/.test(t)],
		[
			"what a program says for no number",
			(t) => /\b(?:NaN|undefined|Infinity|not a number)\b/.test(t),
		],
		[
			"a bare exponent",
			(t) => /(?<![\w.])\d+(?:\.\d+)?e[+-]?\d{1,3}\b/.test(t),
		],
		[
			`more than ${mostDigits} digits`,
			(t) =>
				[...t.matchAll(/(?<![\w.-])\d+\.\d+(?![\w.])/g)].some(
					([number]) => digitsOf(number) > mostDigits,
				),
		],
	];

/** Faults of numbers anywhere on a page but in its programs and sheets. */
export function numberFaults(html: string): Fault[] {
	return texts(html).flatMap((text) =>
		faultsOfText.flatMap(([what, is]) =>
			is(text) ? [{ what, found: text.slice(0, 160) }] : [],
		),
	);
}

/** What may stand on a page several times, since it has to be read in each of its places. */
const permitted = [
	/^(?:Must not be done|Danger|Warning|Spilt|Waste|While dissolving|In the kiln)\b/,
	/^(?:Shown at the head of this page|What other flasks lean on too)/,
	/^(?:Error bars|Shaded|Dotted|Outlined|Band|Bars): /,
];

/** So few words are a label, no sentence. */
const fewestWords = 6;

/** Sentences of a page's prose that it says more than once, each with how often; tables and headings stay out. */
export function repeatedSentences(html: string): Map<string, number> {
	const prose = html
		.replace(workings, " ")
		.replace(/<table\b[\s\S]*?<\/table>/g, " ")
		.replace(/<nav\b[\s\S]*?<\/nav>/g, " ")
		.replace(/<(title|h[1-6])\b[\s\S]*?<\/\1>/g, " ");
	const counts = new Map<string, number>();
	for (const text of texts(prose))
		for (const sentence of text.split(/(?<=[.!?])\s+(?=["\p{Lu}])/u))
			if (
				sentence.split(" ").length >= fewestWords &&
				!permitted.some((p) => p.test(sentence))
			)
				counts.set(sentence, (counts.get(sentence) ?? 0) + 1);
	return new Map([...counts].filter(([, n]) => n > 1));
}

/** Words that a page could leave out without saying less. */
export function wordsSaidTwice(html: string): number {
	return [...repeatedSentences(html)].reduce(
		(sum, [sentence, n]) => sum + (n - 1) * sentence.split(" ").length,
		0,
	);
}
