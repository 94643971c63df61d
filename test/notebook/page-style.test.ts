import { describe, expect, test } from "vitest";
import { numberFaults, repeatedSentences, wordsSaidTwice } from "./page-style";

const whatOf = (html: string): string[] =>
	numberFaults(html).map((f) => f.what);

describe("numbers of a page", () => {
	test.each([
		["<p>from -13 to 24</p>", "a hyphen for a minus sign"],
		["<td>-0.5</td>", "a hyphen for a minus sign"],
		[
			"<p>(812.4 ± 6.1) mg/g</p>",
			"plus-minus, which says neither u nor which interval",
		],
		["<p>NaN mg/g</p>", "what a program says for no number"],
		["<td>1.61e+10</td>", "a bare exponent"],
		["<p>0.168637961 mol/L</p>", "more than 8 digits"],
	])("%s", (html, what) => {
		expect(whatOf(html)).toEqual([what]);
	});

	test.each([
		"<p>from −13 to 24 on 2026-03-11, kiln-3, 0.5-1 mm, 1.6 × 10¹⁰</p>",
		"<p>0.90400 g (u 0.00071 g), 0.16863796</p>",
		"<pre>const x = -1; // NaN</pre>",
		'<table class="sheet"><tr><td>-0.5 ± 0.1</td></tr></table>',
	])("not %s", (html) => {
		expect(whatOf(html)).toEqual([]);
	});
});

test("a sentence that is said twice is found, in prose only", () => {
	const said = "The interval leaves out zero and lies beyond the margin.";
	expect(
		repeatedSentences(`<p>${said}</p><ul><li>So. ${said}</li></ul>`),
	).toEqual(new Map([[said, 2]]));
	expect(wordsSaidTwice(`<p>${said}</p><ul><li>${said}</li></ul>`)).toBe(10);
	expect(wordsSaidTwice(`<p>${said}</p><td>${said}</td>`)).toBe(10);
	expect(
		wordsSaidTwice(`<p>${said}</p><table><tr><td>${said}</td></tr></table>`),
	).toBe(0);
	expect(wordsSaidTwice("<p>Too short.</p><p>Too short.</p>")).toBe(0);
});
