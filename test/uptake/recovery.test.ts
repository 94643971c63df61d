import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench";
import { cellText } from "../../kernel-lib/quantity";
import { recoveries } from "../../kernel-lib/uptake";
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

const recoveriesWith = (...blanks: Row[]) =>
	steps([charRow("a", { day: "1" }), charRow("b", { day: "2" }), ...blanks])
		.recoveries.table;

const table = (...blanks: Row[]): string[][] =>
	recoveriesWith(...blanks).rows.map((row) =>
		row.map((cell) => cellText(cell, "")),
	);

describe("the table of recoveries", () => {
	test("a sheet of iodine has its heads, and no note where nothing lies apart", () => {
		const { columns, notes } = recoveriesWith(iodineBlank("i", "1", 9));
		expect(columns).toEqual([
			"day",
			"recovery",
			"iodine blanks",
			"what it means",
		]);
		expect(notes).toEqual([]);
	});

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

describe("several days and blanks", () => {
	const days = (deviations: Row[] = []) =>
		steps(
			[
				charRow("a", { day: "1" }),
				charRow("b", { day: "2" }),
				iodineBlank("i", "1", 9),
				iodineBlank("j", "1", 9.4),
				iodineBlank("k", "2", 9.6),
			],
			undefined,
			{ deviations },
		).recoveries;
	const of = (found: ReturnType<typeof days>, day: string) => {
		const recovery = found.forDay(day);
		if (recovery.is !== "measured") throw new Error("no recovery");
		return recovery;
	};

	test("each day has the mean of its own", () => {
		const found = days();
		expect(of(found, "1").ratio.in("1")).toBeCloseTo(0.92, 9);
		expect(of(found, "1").flasks).toEqual(["i", "j"]);
		expect(of(found, "2").ratio.in("1")).toBeCloseTo(0.96, 9);
		expect(of(found, "2").flasks).toEqual(["k"]);
	});

	test("one that is left out counts nowhere", () => {
		const found = days([
			{ flask: "j", "what happened": "spilt", handling: "leave out" },
		]);
		expect(of(found, "1").ratio.in("1")).toBeCloseTo(0.9, 9);
		expect(of(found, "1").flasks).toEqual(["i"]);
	});

	test("blanks that lie far apart are told below the table, once for their day; others are not", () => {
		const found = days();
		expect(of(found, "1").apart).toContain("(i, j)");
		expect(of(found, "2").apart).toBe("");
		expect(found.table.notes).toEqual([of(found, "1").apart]);
	});
});

describe("of a dye", () => {
	const told = (absorbance: number) =>
		recoveries(
			trialFromRows({
				flasks: [
					{
						flask: "a",
						treatment: "control",
						"char mass (g)": 0.1,
						"dose (mL)": 25,
						"made up to (mL)": 100,
						"char in when made up": "no",
						"absorbance 1": 0.2,
					},
					{
						flask: "i",
						contents: "dye blank",
						"dose (mL)": 25,
						"made up to (mL)": 100,
						"absorbance 1": absorbance,
					},
				],
				solutions: [
					{
						solution: "blue",
						substance: "methylene blue",
						"concentration (mg/L)": 200,
					},
				],
				calibration: [0, 20, 40, 60, 80, 100].map((c, i) => ({
					standard: `E${i}`,
					"concentration (mg/L)": c,
					"absorbance 1": 0.01 * c + (i % 2 === 0 ? 0.002 : -0.002),
				})),
			}),
		);

	test("the share of the 50 mg/L dosed, in words of the dye", () => {
		const found = told(0.45);
		const { table } = found;
		const day = found.forDay("");
		expect(day.is === "measured" && day.ratio.in("1")).toBeCloseTo(0.9, 2);
		expect(table.title).toBe("Recovery of methylene blue without char");
		expect(table.columns[2]).toBe("blanks without char");
		expect(table.rows[0][3]).toBe("losses are taken off the uptakes");
	});

	test("more than was dosed is no iodide oxidised by air", () => {
		expect(told(0.55).table.rows[0][3]).toBe(
			"more methylene blue than was dosed: its error, or a standard that is not what it is called",
		);
	});

	test("a blank that read above the line gives none", () => {
		const found = told(1.5);
		expect(found.forDay("").is).toBe("none");
		expect(found.table.rows[0][2]).toBe(
			"i: what was left could not be measured",
		);
	});
});

test("the name of a recovery has its day, where days have names", () => {
	const meaning = (day: string): string => {
		const found = steps([
			charRow("a", { day }),
			iodineBlank("i", day, 9),
		]).recoveries.forDay(day);
		return found.is === "measured" ? found.ratio.name.meaning : "";
	};
	expect(meaning("")).toBe("recovery of iodine without char");
	expect(meaning("3")).toBe("recovery of iodine without char, day 3");
});
