/** What must not be done stands first, and only where the sheet brings it together. */
import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench";
import { cautionsFor, mustNot } from "../../kernel-lib/cautions";
import { headOf } from "../../kernel-lib/notebook/head";
import {
	forbiddenMarkup,
	leadMarkup,
} from "../../kernel-lib/notebook/page/head";
import { meetings, meetingsAmong, whyNot } from "../../kernel-lib/substances";
import { kilnOf } from "../activation/firings";
import { charRow, plainSolutions, type Row } from "../uptake/sheets";

const ofFlasks = (...changes: Row[]): string[] =>
	cautionsFor(
		trialFromRows({
			flasks: [
				charRow("c"),
				...changes.map((change, i) =>
					charRow(`t${i}`, {
						treatment: `treatment ${i}`,
						control: "control",
						...change,
					}),
				),
			],
			solutions: plainSolutions,
		}),
	);
const forbidden = (list: readonly string[]): string[] =>
	list.filter((text) => text.startsWith(mustNot));

describe("what must not meet", () => {
	test("needs two parts: one that is both is no alarm by itself", () => {
		expect(meetingsAmong([["bleach", "ammonia"]])).toEqual([]);
		expect(meetingsAmong([["bleach"], ["ammonia"]])).toHaveLength(1);
		expect(meetingsAmong([["ammonia"], ["bleach"]])).toHaveLength(1);
		expect(meetingsAmong([["bleach", "ammonia"], ["iodine"]])).toHaveLength(1);
		expect(meetingsAmong([])).toEqual([]);
	});

	test("forbids a step before it is done", () => {
		expect(whyNot("strong acid", [["cyanide"]])).toContain("hydrogen cyanide");
		expect(whyNot("strong acid", [["mild alkali", "carbonate"]])).toBe("");
		expect(whyNot("iodine", [["ammonia"]])).toContain("explodes");
		expect(whyNot("heat with char", [["nitrate"]])).toContain("gunpowder");
		expect(whyNot("char", [["perchlorate"]])).toContain("may explode");
		// One part among harmless ones is enough, on either side.
		expect(whyNot("strong acid", [["brine"], ["cyanide"]])).toContain(
			"hydrogen cyanide",
		);
		expect(whyNot("cyanide", [["brine"], ["mild acid"]])).toContain(
			"hydrogen cyanide",
		);
	});

	test("each meeting is told in its own words", () => {
		expect(new Set(meetings.map((m) => m.says)).size).toBe(meetings.length);
	});
});

describe("on one bench", () => {
	test.each([
		["iodine and ammonia", [{ "soaked in": "ammonia" }], /iodine and ammonia/],
		["iodine and urea", [{ "soaked in": "urea" }], /iodine and ammonia/],
		[
			"bleach in one row, vinegar in the other",
			[{ "soaked in": "bleach" }, { "soaked in": "vinegar" }],
			/bleach and acid/,
		],
		[
			"bleach, and a boil in acid",
			[{ "soaked in": "bleach", "acid boiled": "yes" }],
			/bleach and acid/,
		],
		[
			"bleach and ammonia",
			[{ "soaked in": "bleach" }, { "soaked in": "ammonia" }],
			/bleach and ammonia/,
		],
		[
			"cyanide and acid",
			[{ "soaked in": "potassium cyanide" }, { "soaked in": "HCl" }],
			/cyanide and acid/,
		],
		[
			"sulfide and acid, in a note",
			[{ notes: "rinsed with vinegar after Na2S" }],
			/sulfide and acid/,
		],
		[
			"sulfite and acid",
			[{ "soaked in": "sodium sulfite" }, { "soaked in": "citric acid" }],
			/sulfite and acid/,
		],
		["perchlorate on char", [{ "soaked in": "KClO4" }], /perchlorate and char/],
		[
			"peroxide and acetone in one row",
			[{ "soaked in": "acetone", notes: "after H2O2" }],
			/an oxidiser and a solvent/,
		],
		[
			"a fluoride, and a boil in acid",
			[{ "soaked in": "sodium fluoride", "acid boiled": "yes" }],
			/a fluoride and acid/,
		],
		[
			"ammonium in a word that the list does not have",
			[{ "soaked in": "ammonium citrate" }],
			/iodine and ammonia/,
		],
	] as const)("%s", (_, changes, words) => {
		const texts = ofFlasks(...changes);
		expect(forbidden(texts).join("\n")).toMatch(words);
		expect(texts[0].startsWith(mustNot)).toBe(true);
	});

	test.each([
		["water alone", [{ "soaked in": "water" }]],
		[
			"potash and vinegar",
			[{ "soaked in": "potash" }, { "soaked in": "vinegar" }],
		],
		["bleach alone", [{ "soaked in": "bleach" }]],
		["ammonia-free water", [{ "soaked in": "ammonia-free water" }]],
		[
			"potash in one row, a second firing in another",
			[{ "soaked in": "potash" }, { treatment: "second firing" }],
		],
		[
			"potash on char of a batch that a kiln is named for",
			[{ "soaked in": "potash", "char batch": "kiln 3" }],
		],
		["acid alone", [{ "acid boiled": "yes" }]],
		["fluoride alone", [{ "soaked in": "HF" }, { "soaked in": "HF" }]],
	] as const)("%s is no alarm", (_, changes) => {
		expect(forbidden(ofFlasks(...changes))).toEqual([]);
	});

	test("permanganate in one row and alcohol in another do not meet", () => {
		const texts = ofFlasks(
			{ "soaked in": "KMnO4" },
			{ "soaked in": "alcohol" },
		);
		expect(forbidden(texts).join("\n")).not.toMatch(/solvent/);
	});
});

describe("in a kiln", () => {
	const ofKiln = (change: Record<string, string | number>): string[] =>
		cautionsFor(kilnOf([{ firing: "A", "precursor mass (g)": 5, ...change }]));

	test.each([
		["KOH", /water on alkali and char while they are hot/],
		["K2CO3", /water on alkali and char while they are hot/],
		["KNO3", /drying, grinding or heating char that holds an oxidiser/],
		["zinc chloride", /zinc chloride heated outside/],
	])("%s", (agent, words) => {
		const texts = ofKiln({ agent });
		expect(forbidden(texts).join("\n")).toMatch(words);
		// No caution may advise what another forbids.
		expect(texts.join("\n")).not.toMatch(/closed and wetted/);
	});

	test("an ordinary firing is no alarm", () => {
		expect(forbidden(ofKiln({}))).toEqual([]);
		expect(forbidden(ofKiln({ agent: "phosphoric acid" }))).toEqual([]);
	});

	test("feedstock that gives off poison, wherever it is written", () => {
		for (const texts of [
			ofKiln({ precursor: "painted wood" }),
			ofKiln({ notes: "from an old tyre" }),
		])
			expect(texts.join("\n")).toMatch(/dioxins/);
	});
});

test("a name on no list is to be looked up, once, before the last line", () => {
	const texts = ofFlasks(
		{ "soaked in": "xylozan" },
		{ "soaked in": "xylozan" },
	);
	const told = texts.filter((t) => t.includes('"xylozan" is not on'));
	expect(told).toHaveLength(1);
	expect(told[0]).toContain("safety data sheet");
	expect(texts.at(-1)).toContain("local codes");
});

test("the page shows what must not be done above everything, and not again among the cautions", () => {
	const forbid = `${mustNot}bleach and acid.`;
	const results = [
		{
			name: "cautions",
			note: "",
			content: { kind: "statements", statements: [forbid, "Acids burn."] },
		},
	] as unknown as Parameters<typeof headOf>[0];
	const head = headOf(results);
	expect(forbiddenMarkup(head)).toMatch(/role="alert".*bleach and acid/);
	expect(leadMarkup(head)).toContain("1 caution.");
	expect(leadMarkup(head)).not.toContain("bleach and acid");
	expect(forbiddenMarkup(headOf([]))).toBe("");
});

test("the head says in one line what is dangerous, what kills first, and how many cautions there are", () => {
	const page = (...statements: string[]): string =>
		leadMarkup(
			headOf([
				{
					name: "cautions",
					note: "",
					content: { kind: "statements", statements },
				},
			] as unknown as Parameters<typeof headOf>[0]),
		);
	expect(
		page(
			"Danger to life, kiln gas: it kills.",
			"Danger, hydrochloric acid, nitric acid: they burn.",
			"Warning, nitric acid, char dust: they irritate.",
			"These are the usual cautions only.",
		),
	).toContain(
		"Danger to life: kiln gas. Danger: hydrochloric acid and nitric acid. 4 cautions.</summary>",
	);
	expect(page()).toBe("");
});
