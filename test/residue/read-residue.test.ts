import { describe, expect, test } from "vitest";
import {
	type Flask,
	type Trial,
	type TrialOptions,
	type TypedRow,
	type TypedRows,
	trialFromRows,
} from "../../kernel-lib/bench";
import { type Problem, ProblemError, working } from "../../kernel-lib/quantity";
import {
	calibrationLines,
	type ReadResidue,
	residues,
} from "../../kernel-lib/residue";
import { limitOptions } from "../../kernel-lib/residue/by-reading/lines-of-trial";
import { readResidue } from "../../kernel-lib/residue/by-reading/read-residue";
import { charRow, plainSolutions } from "../uptake/sheets";
import { dyeFlask, dyeSheet, readBlank, standards } from "./dye-sheet";

const sheet = (
	flasks: readonly TypedRow[],
	more: Partial<TypedRows> = {},
	options: TrialOptions = {},
): Trial => trialFromRows(dyeSheet(flasks, more), options);

const readOf = (trial: Trial): readonly ReadResidue[] =>
	residues(trial).filter((r) => r.is === "read");

const only = (trial: Trial): ReadResidue => readOf(trial)[0];

const leaveOut = (flask: string): TypedRow => ({
	flask,
	"what happened": "cracked",
	handling: "leave out",
});

const [line] = calibrationLines(sheet([dyeFlask("1", 0.8)]));
const [a, b] = line.coefficients;

/** What a call refuses. */
function problemsIn(call: () => unknown): readonly Problem[] {
	try {
		call();
	} catch (error) {
		if (error instanceof ProblemError) return error.problems;
		throw error;
	}
	return [];
}

/** Concentration of an undiluted flask that shows so much, less so much of a blank beyond the zero of the line. */
const byHand = (signal: number, beyondZero = 0): number =>
	(signal - a - beyondZero) / b;

describe("which line a flask is read on", () => {
	const named = (line: string, factor = 1): TypedRow[] =>
		standards.map((s) => ({
			...s,
			line,
			"absorbance 1": factor * Number(s["absorbance 1"]),
		}));
	const conductivity: TypedRow[] = [1, 2, 4, 6].map((c, i) => ({
		standard: `K${i}`,
		line: "ions",
		"concentration (mg/L)": c,
		"conductivity 1 (mS/cm)": 0.1 + c + 0.01 * (i % 2),
	}));

	test("the one that it names, of several", () => {
		const two = { calibration: [...named("one"), ...named("two", 2)] };
		const of = (name: string): number =>
			only(sheet([dyeFlask("1", 0.8, { "read on": name })], two)).residue
				.quantity.value;
		expect(of("one")).toBeCloseTo(byHand(0.8), 9);
		expect(of("two")).toBeCloseTo((0.8 - 2 * a) / (2 * b), 9);
	});

	const fromTable = (name: string) => ({
		name,
		molarAbsorptivity: 90_000,
		standardUncertainty: 4_500,
		source: "a table; from memory",
	});

	test("the only one for its kind of signal", () => {
		const found = only(
			sheet(
				[dyeFlask("1", 0.8)],
				{ calibration: conductivity },
				{ absorptivities: [fromTable("red")] },
			),
		);
		expect(found.reading.is === "on a line" && found.reading.on.line.name).toBe(
			"red",
		);
	});

	test("two for one kind and no name: both are told, with their kinds", () => {
		expect(() =>
			residues(
				sheet(
					[dyeFlask("1", 0.8)],
					{ calibration: [] },
					{ absorptivities: [fromTable("one"), fromTable("two")] },
				),
			),
		).toThrow(
			/a reading of absorbance, and the lines "one" \(absorbance\), "two" \(absorbance\)/,
		);
	});

	test("one for another kind of signal: every flask is told, in its place", () => {
		const trial = sheet(
			["1", "2"].map((name) => dyeFlask(name, 0.8, { "read on": "ions" })),
			{ calibration: conductivity },
		);
		const problems = problemsIn(() => residues(trial));
		expect(
			problems.map(({ code, where }) => [code, where.row, where.column]),
		).toEqual([
			["line-of-wrong-kind", 2, "absorbance"],
			["line-of-wrong-kind", 3, "absorbance"],
		]);
		expect(problems[0].found).toBe(
			'a reading of absorbance on the line "ions" for conductivity',
		);
	});

	test("a dry residue needs none, even where it names one", () => {
		const dried = {
			"dry residue (g)": 0.06,
			"aliquot (mL)": 25,
			"read on": "calibration",
		};
		const found = readOf(sheet([dyeFlask("1", "", dried), dyeFlask("2", 0.8)]));
		expect(found.map((r) => r.reading.is)).toEqual(["by itself", "on a line"]);
	});

	test("lines that are wrong are no concern of a sheet in which nothing was read", () => {
		const titrated = (reading: TypedRow) =>
			trialFromRows({
				flasks: [charRow("a"), { ...charRow("b"), ...reading }],
				solutions: plainSolutions,
				calibration: standards.map((s) => ({ ...s, "absorbance 1": 0.3 })),
			});
		expect(residues(titrated({}))).toHaveLength(2);
		expect(() =>
			residues(
				titrated({ "aliquot (mL)": "", "titre (mL)": "", "absorbance 1": 0.2 }),
			),
		).toThrow(/readings that do not change/);
	});

	test("a name that is no line's", () => {
		const trial = sheet([dyeFlask("1", 0.8, { "read on": "one" })], {
			calibration: named("one"),
		});
		const [flask] = trial.flasks;
		if (!flask.readings.recorded) throw new Error("not read");
		const readings = { ...flask.readings.value, line: "red" };
		const renamed = {
			...trial,
			flasks: [
				{ ...flask, readings: { recorded: true as const, value: readings } },
			],
		};
		expect(() => residues(renamed)).toThrow(
			/a reading of absorbance to be read on "red", and the lines "one"/,
		);
		expect(problemsIn(() => residues(renamed))[0].code).toBe("line-not-found");
		const none = sheet([dyeFlask("1", 0.8)], { calibration: [] });
		expect(() => readResidue(none, flask, readings)).toThrow(/and no line;/);
		// The same where it is read one by one.
		expect(() => readResidue(trial, flask, readings)).toThrow(
			/to be read on "red"/,
		);
	});

	test("no line at all is one problem of the sheet, and none where no flask in use was read", () => {
		const none = sheet([dyeFlask("1", 0.8), dyeFlask("2", 0.8)], {
			calibration: [],
		});
		expect(() => residues(none)).toThrow(
			/^(?!.*2 problems).*no calibration table/s,
		);
		const dried = {
			"absorbance 1": "",
			"dry residue (g)": 0.06,
			"aliquot (mL)": 25,
		};
		expect(() =>
			residues(
				sheet([dyeFlask("1", 0.8), dyeFlask("2", "", dried)], {
					calibration: [],
					deviations: [leaveOut("1")],
				}),
			),
		).not.toThrow();
	});
});

describe("the blank that is taken off", () => {
	const flask = dyeFlask("1", 0.8, { day: "1" });
	const of = (
		blanks: readonly TypedRow[],
		more: Partial<TypedRows> = {},
	): ReadResidue => only(sheet([flask, ...blanks], more));

	test("the mean of those of the day", () => {
		const found = of([
			readBlank("V", 0.02, { day: "1" }),
			readBlank("W", 0.04, { day: "1" }),
			readBlank("X", 0.2, { day: "2" }),
		]);
		expect(found.reagentBlank).toBe("same day");
		expect(found.residue.quantity.value).toBeCloseTo(byHand(0.8, 0.03 - a), 9);
	});

	test("where the day has none, the mean of the other days", () => {
		const found = of([
			readBlank("V", 0.02, { day: "2" }),
			readBlank("W", 0.06, { day: "3" }),
		]);
		expect(found.reagentBlank).toBe("other days");
		expect(found.residue.quantity.value).toBeCloseTo(byHand(0.8, 0.04 - a), 9);
	});

	test("not one that is left out, and not one read in another way or on another line", () => {
		const day = { day: "1" };
		for (const [blank, more] of [
			[readBlank("V", 0.2, day), { deviations: [leaveOut("V")] }],
			[
				{
					...readBlank("V", 0.2, day),
					"absorbance 1": "",
					"transmittance 1 (%)": 60,
				},
				{},
			],
		] as const) {
			const found = of([blank], more);
			expect(found.reagentBlank).toBe("none");
			expect(found.residue.quantity.value).toBeCloseTo(byHand(0.8), 9);
		}
		const lines = ["one", "two"].flatMap((line) =>
			standards.map((s) => ({ ...s, line })),
		);
		const other = only(
			sheet(
				[
					{ ...flask, "read on": "one" },
					readBlank("V", 0.2, { ...day, "read on": "two" }),
				],
				{ calibration: lines },
			),
		);
		expect(other.reagentBlank).toBe("none");
	});

	test("a flask diluted so many times shows so small a part of it", () => {
		const trial = sheet([
			dyeFlask("1", 0.8, { dilution: 4 }),
			readBlank("V", 0.044),
		]);
		expect(only(trial).residue.quantity.value).toBeCloseTo(
			4 * byHand(0.8, (0.044 - a) / 4),
			9,
		);
	});

	test("the working names the blanks, and a dilution only where there was one", () => {
		const shown = (dilution: number): string =>
			working(
				only(
					sheet([
						dyeFlask("1", 0.8, { dilution }),
						readBlank("V", 0.02, { dilution }),
						readBlank("W", 0.03, { dilution }),
					]),
				).residue.quantity,
			).text;
		expect(shown(1)).toContain("reading of the blank (V, W) beyond the zero");
		expect(shown(1)).not.toMatch(/dilution|[×/] 1(_\d|\n)/);
		expect(shown(4).match(/, dilution \[/g)).toHaveLength(3);
	});

	test("its duplicates are averaged, and it has an error of its own", () => {
		const twice = of([
			readBlank("V", 0.02, { day: "1", "absorbance 2": 0.06 }),
		]);
		expect(twice.residue.quantity.value).toBeCloseTo(byHand(0.8, 0.04 - a), 9);
		expect(twice.residue.quantity.standardUncertainty).toBeGreaterThan(
			of([]).residue.quantity.standardUncertainty,
		);
	});
});

describe("what a residue is called", () => {
	test("residual, at most or at least", () => {
		const found = readOf(
			sheet([dyeFlask("1", 0.8), dyeFlask("2", 0.004), dyeFlask("3", 2)]),
		);
		expect(found.map((r) => r.residue.quantity.name.meaning)).toEqual([
			"residual rhodamine B in flask 1",
			"at most rhodamine B in flask 2",
			"at least rhodamine B in flask 3",
		]);
		expect(found.map((r) => r.left.name.meaning)).toEqual([
			"rhodamine B left in flask 1",
			"rhodamine B left in flask 2, at most",
			"rhodamine B left in flask 3, at least",
		]);
		expect(found[0].account.added.name).toMatchObject({
			symbol: "m_{added}",
			meaning: "rhodamine B added to flask 1",
		});
		// 100 mL of the highest standard, 8 mg/L
		expect(found[2].left.in("mg")).toBeCloseTo(0.8, 9);
	});

	test("its unit is mg/L and mg, diluted or not", () => {
		for (const dilution of [1, 10]) {
			const { residue, left } = only(sheet([dyeFlask("1", 0.8, { dilution })]));
			expect([residue.quantity.unit, left.unit]).toEqual(["mg/L", "mg"]);
		}
	});
});

describe("a withdrawn portion", () => {
	const withdrawn = (reading: number): TypedRow =>
		dyeFlask("1", 0.4, {
			"withdrawn 1 (mL)": 10,
			"withdrawn 1 reading": reading,
		});

	test("takes what was dissolved in it", () => {
		const { account } = only(sheet([withdrawn(0.8)]));
		// 10 mL at the concentration that 0.8 stands for
		expect(account.withdrawn.in("mg")).toBeCloseTo(0.01 * byHand(0.8), 9);
		expect(account.withdrawn.name.meaning).toBe(
			"rhodamine B withdrawn from flask 1",
		);
	});

	test("outside the line it cannot be counted", () => {
		for (const reading of [0.004, 2.4])
			expect(() => residues(sheet([withdrawn(reading)]))).toThrow(
				/row 2, column "withdrawn reading": found a withdrawn portion outside the line: it (cannot be|read higher)/,
			);
	});

	test("that was titrated belongs to no flask that was read", () => {
		const trial = sheet([dyeFlask("1", 0.8)]);
		const [flask] = trial.flasks;
		if (!flask.readings.recorded) throw new Error("not read");
		const { value } = flask.readings;
		const mixed = {
			...flask,
			events: [...flask.events, { is: "withdrawn" }],
		} as unknown as Flask;
		expect(() => readResidue(trial, mixed, value)).toThrow(
			/Flask 1 is read, not titrated/,
		);
	});
});

describe("what weakens a number", () => {
	const cautions = (
		flask: TypedRow,
		more: Partial<TypedRows> = {},
	): readonly string[] => only(sheet([flask], more)).cautions;
	const blue = [
		{
			solution: "red",
			substance: "methylene blue",
			"concentration (mg/L)": 200,
		},
	];

	test("a value below the limit of quantification, not one above it", () => {
		expect(cautions(dyeFlask("1", 0.8))).toEqual([]);
		// 0.04 mg/L, between x_NG = 0.016 and x_BG = 0.061 (s 0.0012, slope 0.2, four degrees of freedom)
		const low = only(sheet([dyeFlask("1", 0.012)]));
		expect(low.residue.is).toBe("value");
		expect(low.cautions).toEqual([
			expect.stringMatching(/^Below the limit of quantification/),
		]);
	});

	test("dimers, unless the shape of the line was tested or is bent", () => {
		// 4 mg/L of methylene blue in the cuvette: 12.5 µmol/L, 8.4 % in dimers
		const told = (calibration: readonly TypedRow[]): boolean =>
			cautions(dyeFlask("1", 0.8), { solutions: blue, calibration })
				.join()
				.includes("dimers");
		expect(told(standards)).toBe(false);
		// Three standards are too few to see a bend.
		expect(
			told([
				standards[0],
				standards[3],
				{ ...standards[5], "absorbance 1": 1.62 },
			]),
		).toBe(true);
		const bent = standards.map((s, i) => {
			const c = Number(s["concentration (mg/L)"]);
			return {
				...s,
				"absorbance 1": 0.22 * c - 0.005 * c * c + (i % 2) * 1e-3,
			};
		});
		// A bend that shows, on a straight line; and on a bent one.
		expect(told(bent)).toBe(true);
		expect(told(bent.map((s) => ({ ...s, model: "quadratic" })))).toBe(false);
	});

	test("a dry residue", () => {
		const dried = {
			"absorbance 1": "",
			"dry residue (g)": 0.06,
			"aliquot (mL)": 25,
		};
		expect(cautions(dyeFlask("1", "", dried), { calibration: [] })).toEqual([
			expect.stringContaining("salts of the char too"),
		]);
	});
});

describe("limits", () => {
	test("as the trial was read with them", () => {
		const options = {
			limitDefinition: "ISO 11843",
			errorProbability: 0.01,
			quantificationFactor: 4,
		} as const;
		expect(limitOptions(sheet([dyeFlask("1", 0.8)], {}, options))).toEqual({
			definition: "ISO 11843",
			errorProbability: 0.01,
			quantificationFactor: 4,
		});
		const bound = (o: TrialOptions): number =>
			only(sheet([dyeFlask("1", 0.004)], {}, o)).residue.quantity.value;
		expect(bound({ errorProbability: 0.01 })).toBeGreaterThan(bound({}));
	});
});

describe("below the zero of the line", () => {
	test("the words have the reading as it was taken and the zero", () => {
		const { contradiction } = only(sheet([dyeFlask("1", -0.1)]));
		expect(contradiction).toMatch(
			/clearly below the zero of its line \(absorbance −0\.1 .*zero of the line 0\.00\d+\)/,
		);
		expect(only(sheet([dyeFlask("1", 0.8)])).contradiction).toBe("");
	});
});
