/** Every place of a sheet is read for names, and nothing is warned of that it does not name. */
import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench";
import {
	cautionsFor,
	cautionTexts,
	neverConcluded,
	neverConcludedOf,
	notConcluded,
	notConcludedFromActivation,
	notConcludedFromProperties,
} from "../../kernel-lib/cautions";
import { compareTreatments, marginOf } from "../../kernel-lib/compare";
import * as properties from "../../kernel-lib/properties/index";
import { kilnOf } from "../activation/firings";
import { rowOf, usualTruth } from "../activation/made-up-firing";
import {
	compareTreatments as compared,
	flasks,
	group,
} from "../compare/fixtures";
import { charRow, plainSolutions, type Row } from "../uptake/sheets";

interface Sheet {
	readonly flask?: Row;
	readonly solution?: Row;
	readonly deviations?: Row[];
}

const trialOf = ({ flask, solution, deviations = [] }: Sheet) =>
	trialFromRows({
		flasks: [
			charRow("c"),
			charRow("t", { treatment: "steam", control: "control", ...flask }),
		],
		solutions: [{ ...plainSolutions[0], ...solution }, plainSolutions[1]],
		deviations,
	});
const textOf = (sheet: Sheet): string => cautionsFor(trialOf(sheet)).join("\n");

describe("read of a sheet", () => {
	test.each<[string, Sheet]>([
		["the treatment", { flask: { treatment: "methanol" } }],
		["what it was soaked in", { flask: { "soaked in": "methanol" } }],
		["the name of the soak", { flask: { soak: "methanol 1" } }],
		["the sample", { flask: { sample: "shells, methanol" } }],
		["the batch", { flask: { "char batch": "methanol batch" } }],
		["a note", { flask: { notes: "smells of methanol" } }],
		["a column of one's own", { flask: { remark: "methanol" } }],
		["the note of a solution", { solution: { notes: "made with methanol" } }],
		[
			"what happened",
			{
				deviations: [
					{ flask: "t", "what happened": "methanol spilt", handling: "keep" },
				],
			},
		],
	])("%s", (_, sheet) => {
		expect(textOf(sheet)).toContain("Danger, methanol:");
		expect(textOf({})).not.toContain("methanol");
	});

	test("each solution, once, and no other", () => {
		const text = textOf({});
		expect(text.match(/Danger, iodine:/g)).toHaveLength(1);
		// Neither thiosulfate nor water is warned of, nor to be looked up.
		expect(text).not.toMatch(/: sodium thiosulfate|knows nothing|is not on/);
	});

	test("a solution by its substance, whatever it is called", () => {
		const withDye = trialFromRows({
			flasks: [charRow("c")],
			solutions: [
				...plainSolutions,
				{
					solution: "third",
					substance: "methylene blue",
					"concentration (mg/L)": 100,
				},
			],
		});
		expect(cautionsFor(withDye).join("\n")).toContain(
			"Warning, methylene blue:",
		);
	});

	test("a step that has nothing to say of a kind is left out", () => {
		const texts = cautionsFor(
			kilnOf([
				{
					firing: "A",
					"precursor mass (g)": 5,
					notes: "CaCl2 and CO2, Na2CO3",
				},
			]),
		).join("\n");
		expect(texts).toContain("Warning, calcium chloride:");
		expect(texts).not.toMatch(/(?:kiln|Spilt|Waste|Danger|Warning): \./);
	});

	test("the drying oven, where something was dried", () => {
		const texts = (change: Row): string =>
			cautionsFor(
				kilnOf([{ firing: "A", "precursor mass (g)": 5, ...change }]),
			).join("\n");
		expect(texts({})).not.toContain("in an oven");
		expect(texts({ "drying 1 time (h)": 1, "drying 1 mass (g)": 4 })).toContain(
			"in an oven",
		);
	});

	test("a boil in acid, wherever it was done", () => {
		expect(textOf({ flask: { "acid boiled": "yes" } })).toContain(
			"Danger, hydrochloric acid:",
		);
		for (const flask of [{ "acid boiled": "no" }, {}] as Row[])
			expect(textOf({ flask })).not.toContain("hydrochloric");
		// It is no matter of a kiln, though the char was fired.
		expect(
			textOf({ flask: { "acid boiled": "yes", treatment: "second firing" } }),
		).not.toContain("choking acid fumes");
	});

	test("a name on the list whose hazards the list does not know is to be looked up once, before the warnings", () => {
		const texts = cautionsFor(trialOf({ flask: { "soaked in": "caffeine" } }));
		const at = texts.findIndex((t) => t.includes("hazards of caffeine"));
		expect(texts.filter((t) => t.includes("caffeine"))).toHaveLength(1);
		expect(texts[at - 1]).toContain("Danger, iodine:");
		expect(texts[at + 1]).toMatch(/Char dust/);
	});

	test("each text stands once", () => {
		const texts = cautionsFor(trialOf({ flask: { "soaked in": "potash" } }));
		expect(new Set(texts).size).toBe(texts.length);
		for (const text of texts) expect(text).toMatch(/^[A-Z"].*\.$/);
	});

	test("a table of properties: its samples too", () => {
		const sheet = properties.propertiesFromRows([
			{
				determination: "a",
				sample: "char soaked in lead acetate",
				property: "moisture",
				"dish (g)": 20,
				"dish and sample (g)": 30,
				"dish after (g)": 29.2,
			},
		]);
		expect(cautionsFor(sheet).join("\n")).toContain(
			"Danger to life, lead acetate:",
		);
		expect(cautionsFor(sheet).join("\n")).toContain("Warning, char dust:");
		expect(cautionsFor(sheet).join("\n")).not.toMatch(/is not on|iodine/);
	});

	test("in the kiln is said of what was in it, not of what else the sheet names", () => {
		const texts = (other: string): string =>
			cautionTexts({
				rows: [
					{ words: ["kiln", "sulfur"], texts: [] },
					{ words: [other], texts: [] },
				],
				unknown: [],
			}).join("\n");
		expect(texts("bleach")).toContain("carbon disulfide");
		expect(texts("bleach")).not.toContain("In the kiln: gives off chlorine");
		expect(
			cautionTexts({
				rows: [{ words: ["kiln, sulfur and bleach"], texts: [] }],
				unknown: [],
			}).join("\n"),
		).toContain("In the kiln: gives off chlorine");
	});

	test("no sheet at all is answered with a sentence", () => {
		for (const wrong of [null, undefined, 3, {}])
			expect(() => cautionsFor(wrong as never)).toThrow(/readTrial|trial/);
	});
});

describe("what may not be concluded", () => {
	test("the limits stand on every page, the last worded for what was taken up", () => {
		expect(neverConcludedOf("iodine")).toEqual(neverConcluded);
		const ofDye = neverConcludedOf("methylene blue");
		expect(ofDye).toHaveLength(neverConcluded.length);
		expect(ofDye.slice(0, -1)).toEqual(neverConcluded.slice(0, -1));
		expect(ofDye.at(-1)).toMatch(/^Uptake of methylene blue stands for/);
		expect(() => neverConcludedOf(3 as never)).toThrow(/in quotes/);
	});

	const scope = (sheet: Sheet): string[] =>
		notConcluded(compareTreatments(trialOf(sheet), { margin: marginOf(25) }));

	test("what the sheet leaves open, flask by flask", () => {
		const said = scope({}).filter((t) => t.startsWith("Not recorded: "));
		expect(said.length).toBeGreaterThan(0);
		for (const text of said) expect(text).toMatch(/^Not recorded: .+; .+\.$/);
		expect(scope({ flask: { acidified: "yes" } }).join("\n")).toMatch(
			/Not recorded: acidified \(flask c\); /,
		);
		expect(said.join("\n")).not.toMatch(/\(flask \)|undefined/);
	});

	test("the scope of the words, from the design", () => {
		const of = (n: number, oneSoak: boolean): string[] =>
			notConcluded(
				compared(
					flasks(
						["water", "steam"].flatMap((name, i) =>
							group(
								name,
								i === 0 ? "" : "water",
								[50, 51, 52, 53].slice(0, n).map((x) => x + 20 * i),
								{ reading: 2, ...(oneSoak ? { soak: `${name}-soak` } : {}) },
							),
						),
					),
					{ margin: marginOf(8) },
				),
			).filter((t) => t.startsWith("The verdict"));
		expect(of(1, false).join()).toContain("measuring error only");
		expect(of(4, true).join()).toContain("these lots of char only");
		expect(of(4, false)).toEqual([]);
	});

	test("a claim: in the note of a solution, cut where it is long, counted beyond three", () => {
		const first = (sheet: Sheet): string => scope(sheet)[0];
		expect(first({ solution: { notes: "safe to drink" } })).toContain(
			'"safe to drink"',
		);
		const long = `safe ${"and sound ".repeat(20)}`;
		expect(first({ flask: { notes: long } })).toContain(
			`"${long.slice(0, 80)}…":`,
		);
		expect(first({ flask: { notes: "safe" } })).toMatch(
			/^The sheet says "safe": the words/,
		);
		expect(
			first({
				flask: { treatment: "safe a", sample: "safe b", soak: "safe c" },
			}),
		).toMatch(/"safe a", "safe b" and "safe c": the words/);
		expect(scope({}).join("\n")).not.toContain("The sheet says");
	});

	test("a firing whose balance does not close is told of once, one that closes never", () => {
		const row = rowOf(usualTruth);
		const lost = {
			...row,
			"product mass (g)": (row["product mass (g)"] as number) - 3,
		};
		const told = notConcludedFromActivation(kilnOf([lost])).filter((t) =>
			t.includes("not to be relied on"),
		);
		expect(told).toHaveLength(1);
		expect(told[0]).not.toContain("whole firing");
		expect(notConcludedFromActivation(kilnOf([row]))[0]).toMatch(
			/^Each firing was done once/,
		);
	});

	const moisture = (name: string, after: number) => ({
		determination: name,
		sample: "shell char",
		property: "moisture",
		"dish (g)": 20.0001,
		"dish and sample (g)": 30.0001,
		"dish after (g)": after,
	});
	const ofProperties = (rows: Row[]): string[] =>
		notConcludedFromProperties(
			properties.charProperties(properties.propertiesFromRows(rows)),
		);

	test("of properties: only what disagrees or was determined once is named", () => {
		const alike = ofProperties([
			moisture("a", 29.2001),
			moisture("b", 29.2002),
		]);
		expect(alike[0]).toMatch(/^These are properties of the chars/);
		const single = ofProperties([moisture("a", 29.2001)]);
		expect(single[0]).toBe(
			'Determined once, so that a slip would not show: moisture of "shell char".',
		);
		for (const text of [...alike, ...single])
			expect(text).not.toMatch(/Iodine uptake|disagree/);
		expect(alike.filter((t) => t.includes("drinking water"))).toHaveLength(1);
	});
});
