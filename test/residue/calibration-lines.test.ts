import { describe, expect, test } from "vitest";
import {
	type Trial,
	type TrialOptions,
	type TypedRow,
	trialFromRows,
} from "../../kernel-lib/bench";
import { working } from "../../kernel-lib/quantity";
import { calibrationLines } from "../../kernel-lib/residue";
import {
	inOneUnit,
	linesOf,
	wavelengthsOf,
} from "../../kernel-lib/residue/by-reading/lines-of-trial";
import { charRow, plainSolutions } from "../uptake/sheets";
import { dyeFlask, dyeSheet, standards } from "./dye-sheet";

const sheet = (
	calibration: readonly TypedRow[],
	more: { deviations?: TypedRow[]; options?: TrialOptions } = {},
): Trial => {
	const { options = {}, ...tables } = more;
	return trialFromRows(
		dyeSheet([dyeFlask("1", 0.8, { "read on": calibration[0]?.line ?? "" })], {
			calibration,
			...tables,
		}),
		options,
	);
};

const leaveOut = (what: TypedRow): TypedRow => ({
	"what happened": "spilt",
	handling: "leave out",
	...what,
});

describe("one line for each name", () => {
	const two = [
		...standards.map((s) => ({ ...s, line: "first" })),
		...standards.map((s) => ({
			...s,
			line: "second",
			"absorbance 1": 2 * Number(s["absorbance 1"]),
		})),
	];

	test("through its own standards", () => {
		const [first, second, ...more] = calibrationLines(sheet(two));
		expect(more).toEqual([]);
		expect([first.name, second.name]).toEqual(["first", "second"]);
		expect(second.coefficients[1]).toBeCloseTo(2 * first.coefficients[1], 9);
		expect(first.points).toHaveLength(6);
	});

	test("then those from molar absorptivities", () => {
		const absorptivities = [
			{
				name: "from a table",
				molarAbsorptivity: 74_000,
				standardUncertainty: 3_700,
				source: "a table; from memory",
			},
		];
		expect(
			calibrationLines(sheet(two, { options: { absorptivities } })).map(
				(l) => l.name,
			),
		).toEqual(["first", "second", "from a table"]);
	});

	test("a standard read again is no point of it", () => {
		const again = {
			...standards[3],
			"absorbance 1": 0.9,
			"read after": "1",
		};
		expect(
			calibrationLines(sheet([...standards, again]))[0].points,
		).toHaveLength(6);
	});

	test("everything that is wrong with any of them is told", () => {
		const flat = (line: string): TypedRow[] =>
			standards.map((s) => ({ ...s, line, "absorbance 1": 0.3 }));
		const asked = () =>
			calibrationLines(sheet([...flat("first"), ...flat("second")]));
		expect(asked).toThrow(/2 problems/);
	});
});

describe("what a deviation leaves out", () => {
	test("a standard, or one of its readings", () => {
		const twice = standards.map((s) => ({
			...s,
			"absorbance 2": Number(s["absorbance 1"]) + 0.002,
		}));
		const points = (deviations: TypedRow[]): number =>
			calibrationLines(sheet(twice, { deviations }))[0].points.length;
		expect(points([])).toBe(12);
		expect(points([leaveOut({ standard: "E2" })])).toBe(10);
		expect(points([leaveOut({ standard: "E2", part: "reading 2" })])).toBe(11);
		expect(
			points([
				leaveOut({ standard: "E2", part: "reading 1" }),
				leaveOut({ standard: "E2", part: "reading 2" }),
			]),
		).toBe(10);
	});

	test("all of them: there is none left, which is another thing than none written down", () => {
		const none = sheet(standards, {
			deviations: standards.map((s) => leaveOut({ standard: s.standard })),
		});
		expect(() => calibrationLines(none)).toThrow(
			/sheet "calibration", row 2, column "standard": found every standard .* left out/,
		);
	});
});

describe("a sheet without standards", () => {
	const without =
		(file: string, trial = sheet([])) =>
		(): unknown =>
			calibrationLines({ ...trial, file });
	const titrated = trialFromRows({
		flasks: [charRow("a")],
		solutions: plainSolutions,
	});

	test("a file is told its sister, a workbook the table", () => {
		expect(without("day.CSV")).toThrow(/write day\.calibration\.csv/);
		expect(without("a.csv.csv")).toThrow(/write a\.csv\.calibration\.csv/);
		for (const file of ["day.xlsx", "day.csv.xlsx"])
			expect(without(file)).toThrow(/add a table "calibration"/);
		expect(without("day.csv")).toThrow(/^day\.csv: found no calibration/);
	});

	test("where flasks were titrated they need none", () => {
		expect(without("day.csv", titrated)).toThrow(/Flasks that were titrated/);
		expect(without("day.csv")).not.toThrow(/Flasks that were titrated/);
		const mixed = trialFromRows({
			flasks: [
				charRow("a"),
				charRow("b", {
					"aliquot (mL)": "",
					"titre (mL)": "",
					"absorbance 1": 0.2,
				}),
			],
			solutions: plainSolutions,
		});
		expect(without("day.csv", mixed)).toThrow(/Flasks that were titrated/);
	});

	test("has no lines, and nothing is wrong until one is asked for", () => {
		expect(linesOf(titrated)).toEqual([]);
	});
});

describe("what the standards were made from", () => {
	test("not said: they are taken as exact, and that is told", () => {
		const [line] = calibrationLines(sheet(standards));
		expect(line.strength.standardUncertainty).toBe(0);
		expect(line.assumptions).toEqual([
			expect.stringContaining('standards of "calibration" are taken as exact'),
		]);
		expect(line.source).toContain('calibration line "calibration" of');
	});

	test("the dosed stock: its 1 % is theirs", () => {
		const [line] = calibrationLines(
			sheet(standards.map((s) => ({ ...s, "made from": "red" }))),
		);
		expect(line.strength.value).toBeCloseTo(1, 12);
		expect(line.strength.standardUncertainty).toBeCloseTo(0.01, 12);
		expect(working(line.strength).text).toContain('nominal strength of "red"');
		expect(line.assumptions).toEqual([]);
	});
});

describe("units", () => {
	const row = (concentration: number, unit: string) =>
		({ concentration, unit }) as Parameters<typeof inOneUnit>[0][number];

	test("concentrations in that of the first row", () => {
		expect(inOneUnit([])).toEqual([]);
		const inMilligrams = inOneUnit([row(5, "mg/L"), row(0.002, "g/L")]);
		expect(inMilligrams.map((r) => r.unit)).toEqual(["mg/L", "mg/L"]);
		expect(inMilligrams[0].concentration).toBe(5);
		expect(inMilligrams[1].concentration).toBeCloseTo(2, 12);
		expect(
			inOneUnit([row(1, "mmol/L"), row(500, "µmol/L")])[1].concentration,
		).toBeCloseTo(0.5, 12);
	});

	test("signals in that of the first reading", () => {
		const salt = [0.1, 0.25, 0.5, 1].map((c, i) => ({
			standard: `E${i}`,
			"concentration (g/L)": c,
			"conductivity 1 (µS/cm)": 10 + 2000 * c + (i % 2),
		}));
		const trial = trialFromRows({
			...dyeSheet([dyeFlask("1", "", { "conductivity 1 (mS/cm)": 1.01 })]),
			calibration: salt,
		});
		const [line] = calibrationLines(trial);
		expect(line).toMatchObject({
			signalKind: "conductivity",
			signalUnit: "µS/cm",
			concentrationUnit: "g/L",
		});
		expect(line.coefficients[1]).toBeCloseTo(2000, -1);
	});

	test("a transmittance of standards makes a line of absorbances", () => {
		const [line] = calibrationLines(
			sheet(
				standards.map(({ "absorbance 1": a, ...s }) => ({
					...s,
					"transmittance 1 (%)": 100 * 10 ** -Number(a),
				})),
			),
		);
		expect(line).toMatchObject({
			signalKind: "absorbance",
			signalUnit: "absorbance",
		});
		expect(line.coefficients[1]).toBeCloseTo(
			calibrationLines(sheet(standards))[0].coefficients[1],
			9,
		);
	});
});

describe("wavelengths", () => {
	const standard = (
		line: string,
		wavelength: number,
		secondWavelength: number,
	) => ({
		line,
		wavelength,
		secondWavelength,
	});
	const trial = (first: number, second: number): Trial =>
		({
			standards: [
				standard("half", 664, 0),
				standard("other half", 0, 800),
				standard("whole", 0, 0),
				standard("whole", 620, 780),
			],
			settings: { wavelengths: { first, second } },
		}) as unknown as Trial;

	test("of the line, where its standards name both", () => {
		expect(wavelengthsOf(trial(664, 800), "whole")).toEqual({
			first: 620,
			second: 780,
		});
	});

	test("else those that the trial was read with", () => {
		for (const line of ["half", "other half", "unknown"])
			expect(wavelengthsOf(trial(664, 800), line)).toEqual({
				first: 664,
				second: 800,
			});
	});

	test("not known unless both are", () => {
		for (const [first, second] of [
			[0, 0],
			[664, 0],
			[0, 800],
		])
			expect(wavelengthsOf(trial(first, second), "half")).toBe("not known");
	});
});
