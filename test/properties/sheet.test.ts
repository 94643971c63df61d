import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TypedRow } from "../../kernel-lib/bench/index";
import * as properties from "../../kernel-lib/properties/index";
import {
	correlation,
	problemText,
	tableText,
} from "../../kernel-lib/quantity/index";
import { charAnswer } from "../../kernel-lib/words";
import { dishRow, known, percent, problemsOf, told } from "./made";

const moistures = [
	dishRow("M1", "moisture", [20.0001, 30.0001, 29.2001]),
	dishRow("M2", "moisture", [20.5, 30.5, 29.72]),
];
const ashes = [
	dishRow("A1", "ash", [25, 27, 25.1], { dried: "no" }),
	dishRow("A2", "total ash", [25.2, 27.2, 25.304], { dried: "no" }),
];
const volatiles = [
	dishRow("V1", "volatiles", [25, 26, 25.7], { dried: "no" }),
	dishRow("V2", "volatile matter", [25, 26, 25.71], { dried: "no" }),
];
const sieveRow: TypedRow = {
	determination: "S1",
	sample: "shell char",
	property: "particle size",
	"sample mass (g)": 100,
	"sieve 1 opening (mm)": 2,
	"sieve 1 mass (g)": 0,
	"sieve 2 opening (µm)": 1000,
	"sieve 2 mass (g)": 80,
	"sieve 3 opening (mm)": 0.5,
	"sieve 3 mass (g)": 20,
	"pan (g)": 0,
};

function found(rows: readonly TypedRow[]): string {
	return problemsOf(properties.checkPropertyRows(rows))
		.map(problemText)
		.join("\n");
}

function property(
	rows: readonly TypedRow[],
	name: properties.PropertyName,
	limits: properties.RepeatabilityLimits = {},
): properties.CharProperty {
	const all = properties.charProperties(
		properties.propertiesFromRows(rows, limits),
	);
	const one = all.find((p) => p.property === name);
	if (one === undefined) throw new Error(`no ${name}`);
	return one;
}

describe("properties of a table", () => {
	test("moisture: mean, standard deviation and interval of duplicates", () => {
		const w = property(moistures, "moisture");
		// 8 and 7.8 %
		expect(told(w.outcome, "%")).toBeCloseTo(7.9, 9);
		expect(w.standardDeviation).toEqual({
			is: "value",
			value: expect.closeTo(0.2 / Math.SQRT2, 9),
		});
		// u = s/√2 = 0.1, t with one degree of freedom is 12.706
		if (w.interval.is !== "interval") throw new Error("no interval");
		expect(w.interval.upper - w.interval.lower).toBeCloseTo(2 * 1.2706, 3);
		expect(w.covers).toBe("readings and scatter of replicates");
	});

	test("ash and volatile matter of moist char stand on the mean moisture; fixed carbon closes", () => {
		const rows = [...moistures, ...ashes, ...volatiles];
		// 0.1/(2 (1 - 0.079)) and 0.104/(2 (1 - 0.079)): mean
		expect(told(property(rows, "total ash").outcome, "%")).toBeCloseTo(
			(100 * 0.051) / 0.921,
			9,
		);
		const volatile = told(property(rows, "volatile matter").outcome, "%");
		expect(volatile).toBeCloseTo((100 * (0.295 - 0.079)) / 0.921, 9);
		expect(told(property(rows, "fixed carbon").outcome, "%")).toBeCloseTo(
			100 - volatile - (100 * 0.051) / 0.921,
			9,
		);
	});

	test("what leans on one moisture shares its error", () => {
		const rows = [...moistures, ...ashes, ...volatiles];
		const [w, v] = [
			property(rows, "moisture"),
			property(rows, "volatile matter"),
		];
		if (w.outcome.is !== "value" || v.outcome.is !== "value")
			throw new Error("a limit");
		const [moisture, volatile] = [w.outcome.quantity, v.outcome.quantity];
		// d VM/d W = -(1 - L)/(1 - W)², with L = 0.295 and W = 0.079
		expect(correlation(moisture, volatile)).toBeCloseTo(
			((-0.705 / 0.921 ** 2) * moisture.standardUncertainty) /
				volatile.standardUncertainty,
			6,
		);
	});

	test("replicates of other chars say how a single one scatters", () => {
		const single = dishRow("M3", "moisture", [20, 30, 29], {
			sample: "control",
		});
		const rows = [...moistures, single];
		const all = properties.charProperties(properties.propertiesFromRows(rows));
		const one = all.find((p) => p.sample === "control");
		if (one?.outcome.is !== "value") throw new Error("a limit");
		expect(one.outcome.quantity.standardUncertainty).toBeCloseTo(
			0.2 / Math.SQRT2,
			6,
		);
		expect(one.agreement.is).toBe("one determination");
		const alone = property([single], "moisture");
		expect(alone.covers).toBe("one determination");
		expect(alone.interval.is).toBe("not known");
		const ofOne = properties.propertiesFromRows([single]);
		expect(tableText(properties.charProperties(ofOne).table)).toContain(
			"determined once: how portions differ is not known",
		);
		// 10 %, taken to scatter by 0.1 %: no more digits than that.
		expect(charAnswer(ofOne).finding).toBe(
			'"control": moisture 10.0 % (determined once).',
		);
	});

	test("two that lie close together by luck have the interval of portions that differ by a hundredth", () => {
		const rows = [
			dishRow("M1", "moisture", [20, 30, 29.43]),
			dishRow("M2", "moisture", [20, 30, 29.4298]),
		];
		const lucky = property(rows, "moisture");
		if (lucky.interval.is !== "interval") throw new Error("no interval");
		// 5.701 %, s of one 0.057 %, 1.96/√2 times that on either side
		expect(lucky.interval.upper - 5.701).toBeCloseTo(
			(1.95996 * 0.05701) / Math.SQRT2,
			4,
		);
		expect(charAnswer(properties.propertiesFromRows(rows)).finding).toBe(
			'"shell char": moisture 5.701 % (5.622 to 5.780).',
		);
	});

	test("a limit from the reader's own copy is held against duplicates", () => {
		expect(
			property(moistures, "moisture", { moisture: percent(0.1) }).agreement.is,
		).toBe("beyond the limit");
		expect(
			property(moistures, "moisture", { moisture: percent(0.3) }).agreement.is,
		).toBe("within the limit");
		expect(() =>
			property(moistures, "moisture", { ash: percent(1) } as never),
		).toThrow(/the option "ash", which propertiesFromRows does not have/);
		expect(() =>
			property(moistures, "moisture", {
				moisture: known("mass", 1, "g"),
			}),
		).toThrow(/a quantity of the kind ratio/);
	});

	test("a sieving gives three figures and its distribution; sieves in mm or µm", () => {
		const sheet = properties.propertiesFromRows([sieveRow]);
		expect(sheet.sievings[0].sizes.classes.map((c) => c.name)).toEqual([
			"on 2 mm",
			"on 1 mm",
			"on 0.5 mm",
			"pan",
		]);
		expect(
			told(property([sieveRow], "effective size").outcome, "mm"),
		).toBeCloseTo(Math.SQRT1_2, 9);
	});

	test("two sievings, one with a limit: the limit that both keep", () => {
		const coarser: TypedRow = {
			...sieveRow,
			determination: "S2",
			"sieve 3 mass (g)": 0,
			"pan (g)": 20,
		};
		const d10 = property([sieveRow, coarser], "effective size");
		expect(d10.outcome).toMatchObject({ is: "at most" });
		expect(
			d10.outcome.is !== "not known" && d10.outcome.quantity.in("mm"),
		).toBeCloseTo(Math.SQRT1_2, 9);
		expect(d10.interval.is).toBe("not known");
		expect(d10.agreement.is).toBe("with limits");
		const both = property(
			[coarser, { ...coarser, determination: "S3" }],
			"effective size",
		);
		expect(both.agreement).toMatchObject({ is: "with limits", advice: "" });
	});

	test("replicates that disagree by more than their limit stay out of the pool and stand alone", () => {
		const rows = [
			...moistures,
			dishRow("M3", "moisture", [20.0001, 30.0001, 29.0001], {
				sample: "control",
			}),
			dishRow("M4", "moisture", [20.0001, 30.0001, 29.1001], {
				sample: "control",
			}),
		];
		const u = (
			limits: properties.RepeatabilityLimits,
			sample: string,
		): number => {
			const p = properties
				.charProperties(properties.propertiesFromRows(rows, limits))
				.find((x) => x.sample === sample);
			if (p?.outcome.is !== "value") throw new Error("a limit");
			return p.outcome.quantity.standardUncertainty;
		};
		// s² of the two pairs is 0.2²/2 and 1²/2; their pool is the mean of the two.
		const pooled = Math.sqrt((0.02 + 0.5) / 2 / 2);
		expect(u({}, "control")).toBeCloseTo(pooled, 6);
		expect(u({}, "shell char")).toBeCloseTo(pooled, 6);
		const limits = { moisture: percent(0.5) };
		expect(u(limits, "control")).toBeCloseTo(0.5, 6);
		expect(u(limits, "shell char")).toBeCloseTo(0.1, 6);
	});

	test("splits in two liquids are two properties, not replicates", () => {
		const split = (
			name: string,
			density: number,
			floated: number,
		): TypedRow => ({
			determination: name,
			sample: "shell char",
			property: "float-sink",
			"liquid density (g/mL)": density,
			"floated (g)": floated,
			"sunk (g)": 10 - floated,
		});
		const sheet = properties.propertiesFromRows([
			split("f1", 1.1, 1),
			split("f2", 1.25, 4),
			split("f3", 1.1, 1.2),
		]);
		const all = properties.charProperties(sheet);
		expect(
			all.map((p) => [p.at, p.determinations.length, told(p.outcome, "%")]),
		).toEqual([
			["1.1 g/mL", 2, expect.closeTo(11, 9)],
			["1.25 g/mL", 1, expect.closeTo(40, 9)],
		]);
		expect(tableText(properties.charProperties(sheet).table)).toContain(
			"floated share at 1.25 g/mL",
		);
	});

	test("pH, density by cylinder or by mass, hardness, solubles, float and sink", () => {
		const common = { sample: "shell char" };
		const rows: TypedRow[] = [
			{ ...common, determination: "p", property: "pH", pH: 9.1 },
			{
				...common,
				determination: "d1",
				property: "bed density",
				dried: "yes",
				"dish (g)": 100,
				"dish and sample (g)": 148,
				"volume (mL)": 100,
			},
			{
				...common,
				determination: "d2",
				property: "apparent density",
				dried: "yes",
				"sample mass (g)": 50,
				"volume (mL)": 100,
			},
			{
				...common,
				determination: "h",
				property: "hardness",
				"sample mass (g)": 50,
				"retained (g)": 44,
			},
			{
				...common,
				determination: "s",
				property: "water solubles",
				dried: "yes",
				"sample mass (g)": 10,
				"extract volume (mL)": 100,
				"aliquot volume (mL)": 25,
				"dish (g)": 30,
				"dish after (g)": 30.05,
			},
			{
				...common,
				determination: "f",
				property: "float-sink",
				liquid: "salt brine",
				"liquid density (g/mL)": 1.1,
				"floated (g)": 2,
				"sunk (g)": 8,
			},
		];
		const sheet = properties.propertiesFromRows(rows);
		const all = properties.charProperties(sheet);
		expect(
			all.map((p) => [
				p.property,
				p.outcome.is === "value" && Number(p.outcome.quantity.value.toFixed(6)),
			]),
		).toEqual([
			["apparent density", 0.49],
			["water-soluble content", 2],
			["ball-pan hardness", 88],
			["pH", 9.1],
			["floated share", 20],
		]);
		expect(sheet.splits[0].split.liquid).toBe("salt brine");
		const text = tableText(properties.charProperties(sheet).table);
		expect(text).not.toMatch(/NaN|undefined|Infinity/);
	});

	test("contents for the uptake are the ones of the char that is named", () => {
		const all = properties.charProperties(
			properties.propertiesFromRows([...moistures, ...ashes]),
		);
		const contents = properties.contentsOf(all, "shell char");
		expect(contents.moisture?.in("%")).toBeCloseTo(7.9, 9);
		expect(contents.ash?.in("%")).toBeCloseTo((100 * 0.051) / 0.921, 9);
		expect(properties.contentsOf(all, "other")).toEqual({});
	});
});

describe("what is refused, everything at once, each with its place", () => {
	test("mass gained on drying, ash above the sample, a cell missing, dried not told", () => {
		const text = found([
			dishRow("M1", "moisture", [20, 30, 30.2]),
			dishRow("A1", "total ash", [25, 27, 27.5], { dried: "yes" }),
			dishRow("A2", "total ash", [25, 27, ""], { dried: "?" }),
			dishRow("V1", "volatile matter", [25, 26, 25.5], {
				dried: "no",
				sample: "other",
			}),
			dishRow("V2", "volatile matter", [25, 26, 25.5], { dried: "no" }),
		]);
		expect(text.split("\n")).toHaveLength(5);
		expect(text).toContain(
			'typed in, sheet "properties", row 2, column "dish after (g)": found 30.2 g after drying',
		);
		expect(text).toMatch(/row 3, .*27.5 g after ashing/);
		expect(text).toMatch(
			/row 4, column "dish after \(g\)": found an empty cell/,
		);
		expect(text).toMatch(/row 4, column "dried": found "not recorded"/);
		// Row 6 hangs on the moisture of row 2, which has been told of.
		expect(text).toMatch(
			/row 5, column "dried": found "no" for "other", whose moisture is nowhere/,
		);
	});

	test("one name twice, a property that is none, a sieve without a mass, too much on the sieves", () => {
		const text = found([
			...moistures,
			dishRow("M1", "moisture", [20, 30, 29]),
			dishRow("Q", "colour", [20, 30, 29]),
			{ ...sieveRow, "sieve 2 mass (g)": "" },
			{ ...sieveRow, determination: "S2", "sample mass (g)": 90 },
		]);
		expect(text).toMatch(/row 4.*"M1", which row 2 has too/);
		expect(text).toMatch(/row 5.*"colour".*"moisture", "total ash"/);
		expect(text).toMatch(
			/row 6, column "sieve 2 mass \(g\)": found an empty cell/,
		);
		expect(text).toMatch(/row 7.*100 g on the sieves together, of 90 g/);
	});

	test("one char under two spellings", () => {
		const text = found([
			...moistures,
			{ ...dishRow("M3", "moisture", [20, 30, 29]), sample: "Shell-char " },
		]);
		expect(text).toMatch(
			/^typed in, sheet "properties", row 4, column "sample": found "Shell-char", while row 2 has "shell char"/,
		);
	});

	test("no rows", () => {
		expect(found([])).toMatch(/an empty table/);
	});
});

describe("a file", () => {
	let folder = "";
	beforeAll(() => {
		folder = mkdtempSync(join(tmpdir(), "properties-"));
	});
	afterAll(() => rmSync(folder, { recursive: true, force: true }));
	const write = (name: string, text: string): string => {
		const path = join(folder, name);
		writeFileSync(path, text);
		return path;
	};

	test("decimal commas between semicolons, empty rows, columns that are not known", () => {
		const sheet = properties.readProperties(
			write(
				"chars.csv",
				[
					"determination;sample;property;dish (g);dish and sample (g);dish after (g);weather",
					"M1;shell char;moisture;20,0001;30,0001;29,2001;fair",
					";;;;;;",
					"M2;shell char;moisture;20,0001;30,0001;29,2201;fair",
				].join("\n"),
			),
		);
		const [w] = properties.charProperties(sheet);
		expect(told(w.outcome, "%")).toBeCloseTo(7.9, 9);
		expect(sheet.assumptions.join(" ")).toContain("1 empty row");
		expect(sheet.assumptions.join(" ")).toContain('"weather" is not known');
		expect(sheet.assumptions.join(" ")).toContain("0.0001 g");
		expect(w.determinations[1].place).toMatchObject({
			file: "chars.csv",
			row: 4,
		});
	});

	test("a head without a unit, a decimal comma between commas, a file that is not there", () => {
		const text = problemsOf(
			properties.checkProperties(
				write(
					"bad.csv",
					[
						"determination,sample,property,dish,dish and sample (g),dish after (g)",
						"M1,shell char,moisture,20.0,30.0,29.2",
						"M2,shell char,moisture,20,0,30.0,29.2",
					].join("\n"),
				),
			),
		)
			.map(problemText)
			.join("\n");
		expect(text).toMatch(/bad.csv.*row 1, column "dish": found no unit/);
		expect(text).toMatch(/row 3: found 7 cells/);
		expect(
			problemsOf(properties.checkProperties(join(folder, "none.csv")))
				.map(problemText)
				.join(),
		).toMatch(/no file at/);
		expect(() => properties.readProperties(folder)).toThrow(/a folder at/);
	});
});
