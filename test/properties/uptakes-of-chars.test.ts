import { describe, expect, test } from "vitest";
import type { TypedRow } from "../../kernel-lib/bench/index";
import * as properties from "../../kernel-lib/properties/index";
import { charRow, steps } from "../uptake/sheets";
import { dishRow } from "./made";

const chars: readonly TypedRow[] = ["control", "other"].flatMap((sample, i) => [
	dishRow(`M${i}`, "moisture", [20, 30, 29], { sample }),
	dishRow(`A${i}`, "total ash", [25, 27, 25.2], { sample, dried: "yes" }),
	...[1.25, 1.1].map((density, k) => ({
		determination: `F${i}${k}`,
		sample,
		property: "float-sink",
		"liquid density (g/mL)": density,
		"floated (g)": 2 - k,
		"sunk (g)": 8 + k,
	})),
]);
const { uptakes } = steps([
	charRow("1", { treatment: "control" }),
	charRow("2", {
		treatment: "other",
		control: "control",
		"char mass (g)": 1.1,
	}),
]);
const bench = uptakes.map((u) => ({
	...u,
	flask: { ...u.flask, place: { ...u.flask.place, file: "trial.csv" } },
}));

const without = (property: string, sample = ""): TypedRow[] =>
	chars.filter(
		(r) => r.property !== property || (sample !== "" && r.sample !== sample),
	);
const renamed = chars.map((r) => ({ ...r, sample: `my ${r.sample}` }));

describe("uptakes of chars on another basis", () => {
	const told = (rows: readonly TypedRow[], given = bench) =>
		properties.uptakesOfChars(properties.propertiesFromRows(rows), given);

	test("a table that names the sheet", () => {
		const table = told(chars);
		if (!("rows" in table)) throw new Error(table.join());
		expect(table.title).toBe("Uptake of iodine per gram of what: trial.csv");
		expect(table.rows.map((r) => r[1])).toEqual(["control", "other"]);
	});

	test("without a sheet, without a name in common: sentences", () => {
		expect(told(chars, [])).toEqual([
			"No bench sheet is set, so there are no uptakes to go with these chars.",
		]);
		expect(told(renamed)).toEqual([
			'No treatment of trial.csv ("control", "other") has the name of a char of this table ("my control", "my other"). Where they are the same char, write the names alike.',
		]);
	});

	test("a char whose ash is not known is left out and named; the other stays", () => {
		const table = told(without("total ash", "other"));
		if (!("rows" in table)) throw new Error(table.join());
		expect(table.rows.map((r) => r[1])).toEqual(["control"]);
		expect(table.notes[0]).toBe(
			'"other" is left out: its uptakes are per gram of char as weighed, and this table holds no value of its total ash.',
		);
		expect(told(without("total ash"))).toHaveLength(2);
		expect(told(without("moisture"))).toEqual([
			expect.stringContaining("no value of its moisture."),
			expect.stringContaining("no value of its moisture."),
		]);
	});
});

describe("floating grains of chars", () => {
	const told = (rows: readonly TypedRow[], given = bench) =>
		properties.floatingBiasOfChars(properties.propertiesFromRows(rows), given);

	test("of the lightest liquid, whatever the order of the rows", () => {
		const table = told(chars);
		if (!("rows" in table)) throw new Error(table.join());
		expect(table.rows.map((r) => r[0])).toEqual(["0.5 times", "2 times"]);
		expect(table.notes[0]).toContain(
			"10.0 % of the treated char and 10.0 % of the control floated",
		);
	});

	test("what is missing is said in sentences", () => {
		expect(told(chars, [])).toHaveLength(1);
		expect(told(chars.filter((r) => r.sample === "control"))).toEqual([
			"typed in holds one char, and a difference takes two.",
		]);
		expect(told(renamed)).toEqual([
			'trial.csv holds no uptake of "my control".',
			'trial.csv holds no uptake of "my other".',
		]);
		expect(told(without("float-sink", "other"))).toEqual([
			'"other" was not divided in a liquid, so its floating share is not known.',
		]);
	});
});
