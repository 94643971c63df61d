import { describe, expect, test } from "vitest";
import { type Trial, trialFromRows } from "../../kernel-lib/bench";
import { cellText, type Table } from "../../kernel-lib/quantity";
import { uptakes } from "../../kernel-lib/uptake";
import { charRow, plainSolutions, type Row, steps } from "./sheets";

const tableOf = (trial: Trial): Table => uptakes(trial).table;

const balancesOf = (trial: Trial): Table => uptakes(trial).balances;

const iodineBlank: Row = {
	flask: "i",
	contents: "iodine blank",
	"dose (mL)": 40,
	"made up to (mL)": 100,
	"aliquot (mL)": 25,
	"titre (mL)": 9.9,
};
const dry = { "mass basis": "dry" };
const treated = (change: Row = {}): Row =>
	charRow("t", { ...dry, treatment: "treated", control: "control", ...change });

const of = (rows: Row[], more: Parameters<typeof steps>[2] = {}): Table =>
	tableOf(steps(rows, undefined, more).trial);

/** Remark of the flask "t". */
const remarkOf = (table: Table): string =>
	String(table.rows.find((r) => r[0] === "t")?.at(-1));

const dyeTrial = (flasks: Row[] = []): Trial =>
	trialFromRows({
		flasks: [
			{
				flask: "a",
				treatment: "control",
				"char mass (g)": 0.1,
				"mass basis": "dry",
				"dose (mL)": 50,
				"made up to (mL)": 100,
				"char in when made up": "no",
				"absorbance 1": 0.4,
			},
			...flasks,
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
			"absorbance 1": 0.01 * c + (i % 2 === 0 ? 1e-4 : -1e-4),
		})),
	});

describe("each flask's uptake", () => {
	test("a sheet with nothing to say has no remark and no note", () => {
		const table = of([charRow("c", dry), treated(), iodineBlank]);
		expect(table.title).toBe("Iodine uptake of each flask");
		expect(table.columns.slice(4)).toEqual([
			"uptake (mg/g)",
			"at residual iodine (mg/L)",
			"consumed by soak remains (mg)",
			"remark",
		]);
		expect(table.rows.map((r) => r.slice(0, 4))).toEqual([
			["c", "control", "", ""],
			["t", "treated", "", ""],
		]);
		expect(table.rows.map((r) => r.at(-2))).toEqual([
			"none expected",
			"none expected",
		]);
		expect(table.rows.map((r) => r.at(-1))).toEqual(["", ""]);
		expect(table.notes).toEqual([]);
	});

	test("losses that are in it, at the flask and below", () => {
		const rows = [
			charRow("c", { ...dry, day: "1" }),
			treated({ day: "2" }),
			{ ...iodineBlank, day: "1" },
		];
		const table = of(rows);
		expect(table.rows[0].at(-1)).toBe("");
		expect(remarkOf(table)).toBe("Uptake including losses.");
		expect(table.notes).toEqual([
			"Uptake including losses: no iodine blank of the same day says how much iodine went into the air.",
		]);
	});

	test("a char as weighed, at the flask and below", () => {
		const table = of([
			charRow("c", dry),
			treated({ "mass basis": "" }),
			iodineBlank,
		]);
		expect(table.rows[0].at(-1)).toBe("");
		expect(remarkOf(table)).toBe("Per gram as weighed.");
		expect(table.notes).toEqual([
			"Per gram as weighed: the char's moisture is not recorded.",
		]);
	});

	test("a flask that is left out is there, with the reason; its contradiction is no finding of the sheet", () => {
		const table = of(
			[charRow("c", dry), treated({ "titre (mL)": 30 }), iodineBlank],
			{
				deviations: [
					{ flask: "t", "what happened": "spilt", handling: "leave out" },
				],
			},
		);
		expect(remarkOf(table)).toMatch(
			/^Left out: .*spilt.*More iodine was found/,
		);
		expect(table.notes.join()).not.toContain("More iodine was found");
	});

	test("numbers that cannot be right are told at the flask and below", () => {
		const table = of([
			charRow("c", dry),
			treated({ "titre (mL)": 30 }),
			iodineBlank,
		]);
		expect(remarkOf(table)).toMatch(/^More iodine was found/);
		expect(table.notes[0]).toMatch(/^Flask t: More iodine was found/);
	});

	describe("soak remains", () => {
		const withSoak = (soakedIn: string, change: Row = {}): Table =>
			of([
				charRow("c", dry),
				treated({ "soaked in": soakedIn, acidified: "yes", ...change }),
				iodineBlank,
			]);

		test("suspected, and what would measure them", () => {
			const table = withSoak("Na2SO3");
			expect(table.rows[1].at(-2)).toBe("suspected, not measured");
			expect(table.notes).toEqual([
				"Suspected demand: soak remains may consume iodine and look like uptake. A leachate would measure it.",
			]);
			expect(withSoak("KMnO4").notes[0]).toContain("may free iodine");
			expect(withSoak("ammonia").notes[0]).toContain("do not dose");
		});

		test("a bound that they may have fed is no reliable one; one that they may have lowered is", () => {
			const unreliable = "it is not a reliable bound";
			const ranDry = { "titre (mL)": 0 };
			expect(remarkOf(withSoak("Na2SO3", ranDry))).toContain(unreliable);
			expect(remarkOf(withSoak("sulfur", ranDry))).toContain(unreliable);
			expect(remarkOf(withSoak("KMnO4", ranDry))).not.toContain(unreliable);
			expect(remarkOf(withSoak("NaCl", ranDry))).not.toContain(unreliable);
			expect(remarkOf(withSoak("Na2SO3"))).toBe("");
		});

		test("of several chars together they may do either", () => {
			const table = of([
				charRow("c", dry),
				treated({ "soaked in": "Na2SO3" }),
				treated({ flask: "u", treatment: "other", "soaked in": "KMnO4" }),
				iodineBlank,
			]);
			expect(table.notes[0]).toContain(
				"may consume or free iodine and look like more uptake or less",
			);
		});

		test("measured ones stand as milligrams", () => {
			const table = of([
				charRow("c", dry),
				treated({ "soaked in": "Na2SO3" }),
				iodineBlank,
				{
					flask: "L",
					contents: "leachate",
					treatment: "treated",
					"char mass (g)": 2,
					"leachate (mL)": 50,
					"leachate taken (mL)": 25,
					"dose (mL)": 10,
					"made up to (mL)": 100,
					"aliquot (mL)": 25,
					"titre (mL)": 2,
				},
			]);
			// less than 0.1 mmol, since a share of it is a loss
			expect(
				Number.parseFloat(cellText(table.rows[1][6], table.columns[6])),
			).toBeCloseTo(0.1 * 253.81, -1);
			expect(table.notes.join()).not.toContain("Suspected");
		});
	});

	describe("cautions", () => {
		const filter = { "first runnings discarded": "no" };
		test("that hold for every flask are told once, below", () => {
			const table = of([
				charRow("c", { ...dry, ...filter }),
				treated(filter),
				iodineBlank,
			]);
			expect(table.rows.map((r) => r.at(-1))).toEqual(["", ""]);
			expect(table.notes).toEqual([
				"First runnings of the filter were not discarded: the filter itself takes up iodine.",
			]);
		});
		test("of one flask are told at it", () => {
			const table = of([charRow("c", dry), treated(filter), iodineBlank]);
			expect(remarkOf(table)).toMatch(/^First runnings/);
			expect(table.rows[0].at(-1)).toBe("");
			expect(table.notes).toEqual([]);
			const first = of([
				charRow("c", { ...dry, ...filter }),
				treated(),
				iodineBlank,
			]);
			expect(first.rows[0].at(-1)).toMatch(/^First runnings/);
			expect(first.notes).toEqual([]);
			const alone = of([charRow("c", { ...dry, ...filter }), iodineBlank]);
			expect(alone.rows[0].at(-1)).toMatch(/^First runnings/);
		});
	});

	test("what to dose next stands at its flask", () => {
		expect(
			remarkOf(
				of([charRow("c", dry), treated({ "titre (mL)": 0 }), iodineBlank]),
			),
		).toMatch(/^Add at least/);
	});

	test("of a dye: its own words, and nothing of soaks", () => {
		const table = tableOf(dyeTrial());
		expect(table.title).toBe("Methylene blue uptake of each flask");
		expect(table.columns.slice(5)).toEqual([
			"at residual methylene blue (mg/L)",
			"remark",
		]);
		expect(table.notes).toEqual([
			"Uptake including losses: no blank without char of the same day says how much methylene blue went to the glass and the filter.",
		]);
	});

	test("of a sheet without a flask: the heads, and no row", () => {
		const trial = trialFromRows({
			activation: [{ firing: "k", "precursor mass (g)": 10 }],
		});
		const table = tableOf(trial);
		expect(table.title).toBe("Iodine uptake of each flask");
		expect(table.columns).toHaveLength(8);
		expect([table.rows, table.notes]).toEqual([[], []]);
	});
});

describe("where the probe went", () => {
	test("the columns add up", () => {
		const { title, columns, rows, notes } = balancesOf(
			steps([charRow("c"), iodineBlank]).trial,
		);
		expect(title).toBe("Where the iodine went");
		expect(notes).toEqual(["Added = taken up + left + withdrawn + lost."]);
		const [added, ...parts] = rows[0]
			.slice(2)
			.map((c, i) => Number.parseFloat(cellText(c, columns[i + 2])));
		expect(parts.reduce((a, b) => a + b)).toBeCloseTo(added, 0);
	});

	test("a titre counts as it was, however small; a reading beyond its line makes bounds", () => {
		const titrated = balancesOf(
			steps([charRow("c", { "titre (mL)": 0 })]).trial,
		);
		expect(cellText(titrated.rows[0][4], titrated.columns[4])).not.toMatch(
			/at (least|most)/,
		);
		const [within, none, above] = balancesOf(
			dyeTrial(
				[0, 2].map((absorbance, i) => ({
					flask: `b${i}`,
					treatment: "control",
					"char mass (g)": 0.1,
					"dose (mL)": 100,
					"made up to (mL)": 100,
					"char in when made up": "no",
					"absorbance 1": absorbance,
				})),
			),
		).rows.map((r) => r.slice(3, 5).map((c) => cellText(c, "(mg)")));
		expect(within.join()).not.toMatch(/at (least|most)/);
		expect(none).toEqual([
			expect.stringMatching(/^at least/),
			expect.stringMatching(/^at most/),
		]);
		expect(above).toEqual([
			expect.stringMatching(/^at most/),
			expect.stringMatching(/^at least/),
		]);
	});
});

test("a flask that is left out and could not be computed is named all the same", () => {
	const trial = trialFromRows({
		flasks: [
			charRow("c"),
			charRow("x", {
				"titre (mL)": "",
				"aliquot (mL)": "",
				"absorbance 1": 0.3,
			}),
		],
		solutions: plainSolutions,
		deviations: [
			{ flask: "x", "what happened": "spilt", handling: "leave out" },
		],
	});
	const { rows, notes } = tableOf(trial);
	expect(rows.map((r) => r[0])).toEqual(["c"]);
	expect(notes.join(" ")).toMatch(
		/Flask x is left out, without an uptake: .*spilt/,
	);
});
