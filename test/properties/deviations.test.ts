import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TypedRow } from "../../kernel-lib/bench/index";
import * as properties from "../../kernel-lib/properties/index";
import { problemText, tableText } from "../../kernel-lib/quantity/index";
import { charAnswer, charNextSteps } from "../../kernel-lib/words";
import { dishRow, problemsOf, told } from "./made";

/** 8, 7.8 and 10 % of water. */
const moistures = [
	dishRow("M1", "moisture", [20, 30, 29.2]),
	dishRow("M2", "moisture", [20, 30, 29.22]),
	dishRow("M3", "moisture", [20, 30, 29]),
];
const spilt: TypedRow = {
	determination: "M3",
	"what happened": "some of it was spilt",
};
const read = (
	deviations: readonly TypedRow[],
	rows: readonly TypedRow[] = moistures,
) => properties.propertiesFromRows(rows, {}, deviations);
const moisture = (sheet: properties.PropertySheet): number =>
	told(properties.charProperties(sheet)[0].outcome, "%");

describe("a determination that is left out", () => {
	test("is out of the mean, the scatter and the number; kept, it is in", () => {
		expect(moisture(read([]))).toBeCloseTo(8.6, 9);
		const [w] = properties.charProperties(read([spilt]));
		expect(told(w.outcome, "%")).toBeCloseTo(7.9, 9);
		expect(w.standardDeviation).toEqual({
			is: "value",
			value: expect.closeTo(0.2 / Math.SQRT2, 9),
		});
		expect(w.determinations.map((d) => d.name)).toEqual(["M1", "M2"]);
		expect(w.leftOut.map((d) => d.name)).toEqual(["M3"]);
		expect(moisture(read([{ ...spilt, handling: "keep" }]))).toBeCloseTo(
			8.6,
			9,
		);
	});

	test("every table and the answer say so", () => {
		const sheet = read([spilt]);
		const sentence =
			'Left out: determination M3 of "shell char" (some of it was spilt).';
		for (const table of [
			sheet.table,
			properties.charProperties(sheet).agreement,
			properties.charProperties(sheet).table,
		])
			expect(tableText(table)).toContain(sentence);
		expect(tableText(properties.charProperties(sheet).agreement)).toContain(
			"M3: left out",
		);
		expect(charAnswer(sheet).statements[0]).toBe(sentence);
		expect(
			charAnswer(read([{ ...spilt, handling: "keep" }])).statements[0],
		).toBe(
			'Kept in spite of a deviation: determination M3 of "shell char" (some of it was spilt).',
		);
	});

	test("what leans on the moisture leans on the others alone", () => {
		const ash = dishRow("A1", "total ash", [25, 27, 25.1], { dried: "no" });
		const sheet = read([spilt], [...moistures, ash]);
		const found = properties
			.charProperties(sheet)
			.find((p) => p.property === "total ash");
		expect(found && told(found.outcome, "%")).toBeCloseTo(5 / 0.921, 9);
		const without = read(
			[{ ...spilt, determination: "M1; M2; M3" }],
			[...moistures, ash],
		);
		expect(
			properties.charProperties(without).map((p) => [p.property, p.outcome.is]),
		).toEqual([
			["moisture", "not known"],
			["total ash", "not known"],
		]);
		expect(charNextSteps(without).join(" ")).toContain(
			'every determination of the moisture of "shell char" is left out',
		);
	});

	test("readings that cannot be refuse the table only while they are in use", () => {
		const rows = [
			...moistures.slice(0, 2),
			dishRow("M3", "moisture", [20, 30, 30.5]),
		];
		expect(() => read([], rows)).toThrow(/30.5 g after drying/);
		expect(moisture(read([spilt], rows))).toBeCloseTo(7.9, 9);
	});
});

describe("a sieve or a split that is left out", () => {
	const sieving: TypedRow = {
		determination: "S1",
		sample: "shell char",
		property: "particle size",
		"sieve 1 opening (mm)": 2,
		"sieve 1 mass (g)": 0,
		"sieve 2 opening (mm)": 1,
		"sieve 2 mass (g)": 80,
		"sieve 3 opening (mm)": 0.5,
		"sieve 3 mass (g)": 20,
		"pan (g)": 0,
	};
	test("the sieve by its number in the heads", () => {
		const sheet = read(
			[
				{
					determination: "S1",
					part: "sieve 2",
					"what happened": "its mesh was torn",
				},
			],
			[sieving],
		);
		expect(sheet.sievings[0].sizes.classes.map((c) => c.name)).toEqual([
			"on 2 mm",
			"on 0.5 mm",
			"pan",
		]);
		expect(sheet.deviations).toEqual([
			'Left out: sieve 2 of determination S1 of "shell char" (its mesh was torn).',
		]);
	});
	test("a whole sieving, a whole split", () => {
		const split: TypedRow = {
			determination: "F1",
			sample: "shell char",
			property: "float-sink",
			"liquid density (g/mL)": 1.1,
			"floated (g)": 2,
			"sunk (g)": 8,
		};
		const sheet = read(
			[{ determination: "S1; F1", "what happened": "upset" }],
			[sieving, split],
		);
		expect(sheet.sievings).toEqual([]);
		expect(properties.grainDensities(sheet)).toEqual([]);
	});
});

describe("what is wrong with the table of deviations", () => {
	const text = (deviations: readonly TypedRow[]): string =>
		problemsOf(properties.checkPropertyRows(moistures, {}, deviations))
			.map(problemText)
			.join("\n");
	test("a name that is no determination, a part that it has not, empty cells: all at once", () => {
		const found = text([
			{ determination: "M9", part: "", "what happened": "x" },
			{ determination: "M1", part: "weighing 2", "what happened": "x" },
			{ determination: "M2", part: "sieve 1", "what happened": "x" },
			{ determination: "", part: "", "what happened": "x" },
			{ determination: "M1", part: "", "what happened": "" },
		]);
		expect(found).toMatch(
			/sheet "deviations", row 2, column "determination": found "M9"; expected a determination of the table of properties. Did you mean/,
		);
		expect(found).toMatch(/row 3, column "part": found "weighing 2"/);
		expect(found).toMatch(/row 4, column "part": found sieve 1 of "M2"/);
		expect(found).toMatch(/row 5, column "determination": found an empty cell/);
		expect(found).toMatch(/row 6, column "what happened": found an empty cell/);
	});
	test("heads and nothing below them are no problem", () => {
		expect(text([])).toBe("");
	});
});

describe("beside the file", () => {
	let folder = "";
	beforeAll(() => {
		folder = mkdtempSync(join(tmpdir(), "deviations-"));
	});
	afterAll(() => rmSync(folder, { recursive: true, force: true }));
	const write = (name: string, lines: readonly string[]): string => {
		const path = join(folder, name);
		writeFileSync(path, lines.join("\n"));
		return path;
	};
	test("NAME.deviations.csv is read; an empty one is none", () => {
		const heads =
			"determination,sample,property,dish (g),dish and sample (g),dish after (g)";
		const path = write("mine.csv", [
			heads,
			"M1,my char,moisture,20,30,29.2",
			"M2,my char,moisture,20,30,29",
		]);
		expect(moisture(properties.readProperties(path))).toBeCloseTo(9, 9);
		write("mine.deviations.csv", [
			"determination,what happened,handling",
			"M2,spilt,leave out",
		]);
		expect(moisture(properties.readProperties(path))).toBeCloseTo(8, 9);
		write("mine.deviations.csv", ["determination,what happened,handling"]);
		expect(moisture(properties.readProperties(path))).toBeCloseTo(9, 9);
	});
});
