import { describe, expect, test } from "vitest";
import { cellText } from "../../kernel-lib/quantity";
import { charRow, type Row, steps } from "./sheets";

const iodineBlank = (flask: string, day: string, titre: number): Row => ({
	flask,
	contents: "iodine blank",
	day,
	"dose (mL)": 40,
	"made up to (mL)": 100,
	"aliquot (mL)": 25,
	"titre (mL)": titre,
});

const table = (...blanks: Row[]): string[][] =>
	steps([
		charRow("a", { day: "1" }),
		charRow("b", { day: "2" }),
		...blanks,
	]).recoveries.table.rows.map((row) => row.map((cell) => cellText(cell, "")));

describe("the table of recoveries", () => {
	test("a line a day, those without a blank too", () => {
		const [one, two, ...more] = table(
			iodineBlank("i1", "1", 9),
			iodineBlank("i2", "1", 9.2),
		);
		expect(more).toEqual([]);
		expect([one[0], one[2], one[3]]).toEqual([
			"1",
			"i1, i2",
			"losses are taken off the uptakes",
		]);
		expect(one[1]).toContain("91");
		expect(two).toEqual([
			"2",
			"none",
			"none of this day",
			"uptakes of this day include losses",
		]);
	});

	test.each([
		[10, "losses are taken off the uptakes"],
		[
			10.01,
			"more iodine than was dosed: look for iodide oxidised by air in acid",
		],
	])("a blank that titrates %s mL of 10", (titre, words) => {
		expect(table(iodineBlank("i", "1", titre))[0][3]).toBe(words);
	});
});

describe("a blank without char that ran dry", () => {
	const row: Row = {
		day: "1",
		"dose (mL)": 40,
		"made up to (mL)": 100,
		"aliquot (mL)": 25,
	};
	const sheet = (titre: number): Row[] => [
		{ flask: "w", contents: "reagent blank", day: "1", "titre (mL)": 0.2 },
		charRow("c", { day: "1" }),
		{ ...row, flask: "i", contents: "iodine blank", "titre (mL)": titre },
	];

	// One drop, 0.05 mL, is the smallest titre that counts.
	test.each([0.2, 0.24])("%s mL less 0.2: no recovery", (titre) => {
		const { recoveries, uptakes } = steps(sheet(titre));
		expect(recoveries.forDay("1").is).toBe("none");
		expect(recoveries.table.rows[0]).toEqual([
			"1",
			"none",
			"i: what was left could not be measured",
			"uptakes of this day include losses",
		]);
		expect(uptakes[0].lossesTakenOff).toBe(false);
	});

	test("0.26 mL less 0.2: a recovery", () => {
		expect(steps(sheet(0.26)).recoveries.forDay("1").is).toBe("measured");
	});
});

test("what a blank's own withdrawals took out is no loss", () => {
	// 2 mmol dosed, 0.5 mmol withdrawn (10 mL of 0.05 mol/L), the rest made up to 100: 1.35 mmol left are nine tenths of the rest.
	const row: Row = {
		day: "1",
		"dose 1 (mL)": 40,
		"withdrawn 2 (mL)": 10,
		"withdrawn 2 titre (mL)": 10,
		"made up to (mL)": 100,
		"aliquot (mL)": 20,
		"titre (mL)": 5.4,
	};
	const { recoveries } = steps([
		{
			flask: "a",
			treatment: "control",
			"char mass (g)": 1,
			...row,
			"char in when made up": "no",
		},
		{ flask: "i", contents: "iodine blank", ...row },
	]);
	const day = recoveries.forDay("1");
	if (day.is !== "measured") throw new Error("no recovery");
	expect(day.ratio.value).toBeCloseTo(0.9, 9);
	expect(day.flasks).toEqual(["i"]);
});

test("a day that no flask has gives none", () => {
	const { recoveries } = steps([charRow("a", { day: "1" })]);
	expect(recoveries.forDay("9").is).toBe("none");
});
