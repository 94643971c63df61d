import { describe, expect, test } from "vitest";
import {
	type Solution,
	type Trial,
	type TypedRow,
	trialFromRows,
} from "../../kernel-lib/bench/index";
import { cellText, exact, input } from "../../kernel-lib/quantity";
import {
	massConcentrations,
	molarMassOf,
} from "../../kernel-lib/solutions/index";

const flask = (name: string, more: TypedRow = {}): TypedRow => ({
	flask: name,
	treatment: "control",
	"char mass (g)": 0.1,
	"dose (mL)": 10,
	"absorbance 1": 0.5,
	...more,
});

const dosedWith = (solution: TypedRow): Trial =>
	trialFromRows({
		flasks: [flask("1")],
		solutions: [{ solution: "probe", ...solution }],
	});

const strength = (solution: TypedRow): number =>
	massConcentrations(dosedWith(solution)).of("probe").in("mg/L");

describe("grams per litre of what was dosed", () => {
	test("as stated, in any unit of mass", () => {
		expect(
			strength({ substance: "methylene blue", "concentration (g/L)": 0.4 }),
		).toBeCloseTo(400, 9);
	});

	test("weighed: mass times purity over volume; the powder is not all dye", () => {
		expect(
			strength({
				substance: "methylene blue",
				"weighed (g)": 0.5,
				"purity (%)": 85,
				"made up to (mL)": 1000,
			}),
		).toBeCloseTo(425, 9);
	});

	test("moles of a dye on record, of a formula, and of iodine in normality", () => {
		// 16 C 192.176, 18 H 18.144, Cl 35.45, 3 N 42.021, S 32.06
		expect(
			strength({ substance: "methylene blue", "concentration (mmol/L)": 1 }),
		).toBeCloseTo(319.851, 2);
		expect(
			strength({ substance: "CuSO4·5H2O", "concentration (mmol/L)": 2 }),
		).toBeCloseTo(2 * 249.68, 1);
		// 0.05 mol/L of I2 at 2 x 126.90 (abridged atomic weight)
		expect(
			strength({ substance: "iodine", "concentration (N)": 0.1 }),
		).toBeCloseTo(12_690, 6);
	});

	test("by weight percent and density", () => {
		expect(
			strength({
				substance: "phenol",
				"concentration (% w/w)": 2,
				"density (g/mL)": 1.01,
			}),
		).toBeCloseTo(20_200, 6);
	});

	test("moles of a name that is neither on record nor a formula are asked about, and a normality of a dye", () => {
		expect(() =>
			strength({ substance: "beetroot red", "concentration (mmol/L)": 1 }),
		).toThrow(/Write its formula/);
		expect(() =>
			strength({ substance: "methylene blue", "concentration (N)": 1 }),
		).toThrow(/needs a reaction/);
		expect(() => molarMassOf("")).toThrow();
	});

	test("a dye is known by its other names", () => {
		expect(
			strength({
				substance: " Methylene  Blue trihydrate ",
				"concentration (mmol/L)": 1,
			}),
		).toBeCloseTo(319.851, 2);
	});
});

describe("the table of what was dosed", () => {
	const shown = (trial: Trial): string[][] =>
		massConcentrations(trial).table.rows.map((row) =>
			row.map((cell) => cellText(cell, "")),
		);
	const blue = { substance: "methylene blue", "concentration (mg/L)": 200 };

	test("the solutions that flasks were dosed with and read, and no other", () => {
		const trial = trialFromRows({
			flasks: [
				flask("1", { "dose 1 of": "first" }),
				flask("2", { "dose 1 of": "second" }),
				flask("3", { "dose 1 of": "first" }),
			],
			solutions: ["first", "second", "spare"].map((solution) => ({
				solution,
				...blue,
			})),
		});
		expect(shown(trial).map((row) => [row[0], row[1], row[3]])).toEqual([
			["first", "methylene blue", "stated"],
			["second", "methylene blue", "stated"],
		]);
		// Dosed into a flask that was titrated: not read.
		const unread = {
			...trial,
			flasks: trial.flasks.map((f) =>
				f.name === "2" ? { ...f, readings: { recorded: false as const } } : f,
			),
		};
		expect(shown(unread).map((row) => row[0])).toEqual(["first"]);
	});

	test("how each is known", () => {
		const weighed = shown(
			dosedWith({
				substance: "methylene blue",
				"weighed (g)": 0.5,
				"made up to (mL)": 1000,
			}),
		);
		expect(weighed[0][3]).toMatch(/^0\.5\d* g \(u .* g\) in 1000\S* mL \(u/);
		const standardised = trialFromRows({
			flasks: [flask("1")],
			solutions: [
				{
					solution: "iodine",
					substance: "iodine",
					"standardised against": "thiosulfate",
					"aliquot (mL)": 25,
					"titre (mL)": 25,
				},
				{
					solution: "thiosulfate",
					substance: "sodium thiosulfate",
					"concentration (N)": 0.1,
				},
			],
		});
		expect(shown(standardised)[0][3]).toBe(
			'standardised against "thiosulfate"',
		);
	});

	test("a note on what is weighed stands under it, once it has one", () => {
		const notes = (substance: string): readonly string[] =>
			massConcentrations(dosedWith({ substance, "concentration (mg/L)": 200 }))
				.table.notes;
		expect(notes("methylene blue")).toEqual([
			expect.stringMatching(/sold as a hydrate/),
		]);
		expect(notes("rhodamine B")).toEqual([]);
		expect(notes("beetroot red")).toEqual([]);
	});
});

test("a solution that was standardised is looked for in its standardisation, whatever it holds", () => {
	const trial = dosedWith({
		substance: "methylene blue",
		"concentration (mg/L)": 200,
	});
	const basis: Solution["basis"] = {
		is: "standardised",
		against: "probe 2",
		aliquot: input("volume", 25, "mL", exact, {}),
		titrations: [],
		blankTitre: { recorded: false },
		nominal: { recorded: false },
	};
	const [probe] = trial.solutions;
	const standardised = { ...trial, solutions: [{ ...probe, basis }] };
	expect(() => massConcentrations(standardised).of("probe")).toThrow(
		/no solution "probe 2"/,
	);
});
