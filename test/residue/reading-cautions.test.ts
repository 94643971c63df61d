import { describe, expect, test } from "vitest";
import { type TypedRow, trialFromRows } from "../../kernel-lib/bench";
import { readingCautions } from "../../kernel-lib/residue";
import { charRow } from "../uptake/sheets";

/** The first words of every caution, by what it is about. */
const about: readonly (readonly [string, RegExp])[] = [
	["camera", /^A camera is no photometer/],
	["fines", /^Fines and colour/],
	["triiodide", /^The colour of iodine is mostly that of triiodide/],
	["starch", /^The blue of iodine and starch/],
	["methylene blue", /^Methylene blue clings/],
	["ions", /^Conductivity counts every ion/],
	["pH", /^A pH is read on a line only/],
	["dry residue", /^A dry residue counts everything/],
];

const read = (name: string, reading: TypedRow): TypedRow => ({
	...charRow(name),
	"aliquot (mL)": "",
	"titre (mL)": "",
	...reading,
});

function told(
	substance: string,
	flasks: readonly TypedRow[],
	more: { line?: string; deviations?: TypedRow[]; others?: TypedRow[] } = {},
): string[] {
	const { line } = more;
	const trial = trialFromRows({
		flasks,
		solutions: [
			{
				solution: "probe",
				substance,
				...(substance === "iodine"
					? { "concentration (N)": 0.1 }
					: { "concentration (mg/L)": 200 }),
			},
			{
				solution: "thiosulfate",
				substance: "sodium thiosulfate",
				"concentration (N)": 0.1,
			},
			...(more.others ?? []),
		],
		...(line === undefined
			? {}
			: {
					calibration: [0, 1, 2, 4].map((c) => ({
						standard: `E${c}`,
						line,
						"concentration (mg/L)": c,
						"absorbance 1": 0.2 * c + (c === 2 ? 0.001 : 0),
					})),
				}),
		...(more.deviations === undefined ? {} : { deviations: more.deviations }),
	});
	return readingCautions(trial).map(
		(text) => about.find(([, words]) => words.test(text))?.[0] ?? text,
	);
}

const absorbance = read("a", { "absorbance 1": 0.5 });
const clear = { "absorbance 1": 0.5, "absorbance at second wavelength": 0.01 };
const picture = { "intensity 1": 100, "white intensity": 200 };
const of = (flask: TypedRow): TypedRow => ({ ...flask, "dose 1 of": "probe" });

describe("what to bear in mind about a way of reading", () => {
	test.each<[string, string, TypedRow, readonly string[]]>([
		["a dye by its absorbance", "rhodamine B", absorbance, ["fines"]],
		[
			"a dye by its transmittance",
			"rhodamine B",
			read("a", { "transmittance 1 (%)": 40 }),
			["fines"],
		],
		[
			"a dye by a picture",
			"rhodamine B",
			read("a", picture),
			["camera", "fines"],
		],
		["two wavelengths", "rhodamine B", read("a", clear), []],
		["methylene blue", "methylene blue", read("a", clear), ["methylene blue"]],
		["a salt", "NaCl", read("a", { "conductivity 1 (mS/cm)": 1 }), ["ions"]],
		["an acid", "citric acid", read("a", { "pH reading 1": 4.5 }), ["pH"]],
		[
			"what is left when dried",
			"NaCl",
			read("a", { "aliquot (mL)": 25, "dry residue (g)": 0.02 }),
			["dry residue"],
		],
	])("%s", (_, substance, flask, cautions) => {
		expect(told(substance, [of(flask)])).toEqual(cautions);
	});

	test("one flask of several without a second wavelength is enough", () => {
		expect(
			told("rhodamine B", [
				of(read("a", clear)),
				of(read("b", { "absorbance 1": 0.4 })),
			]),
		).toEqual(["fines"]);
	});

	test("flasks that are left out do not count", () => {
		const deviations = [
			{ flask: "b", "what happened": "fell", handling: "leave out" },
		];
		const flasks = [of(read("a", clear)), of(read("b", picture))];
		expect(told("rhodamine B", flasks)).toEqual(["camera", "fines"]);
		expect(told("rhodamine B", flasks, { deviations })).toEqual([]);
	});

	test("a dye that stands in the sheet and was not dosed is not spoken of", () => {
		expect(
			told("rhodamine B", [of(read("a", clear))], {
				others: [
					{
						solution: "blue",
						substance: "methylene blue",
						"concentration (mg/L)": 200,
					},
				],
			}),
		).toEqual([]);
	});
});

describe("iodine", () => {
	test("by its own colour or with starch, by the name of the line", () => {
		expect(told("iodine", [absorbance], { line: "own colour" })).toEqual([
			"fines",
			"triiodide",
		]);
		expect(told("iodine", [absorbance], { line: "With Starch" })).toEqual([
			"fines",
			"starch",
		]);
	});

	test("titrated there is nothing to say, whatever lines the sheet has", () => {
		expect(told("iodine", [charRow("t")])).toEqual([]);
		expect(told("iodine", [charRow("t")], { line: "starch" })).toEqual([]);
	});

	test("read without its colour", () => {
		expect(
			told("iodine", [read("a", { "conductivity 1 (mS/cm)": 1 })]),
		).toEqual(["ions"]);
	});
});
