import { describe, expect, test } from "vitest";
import {
	type Flask,
	type Trial,
	type TypedRow,
	type TypedRows,
	trialFromRows,
} from "../../kernel-lib/bench";
import { cellText } from "../../kernel-lib/quantity";
import { everyResidue, residues } from "../../kernel-lib/residue";
import { charRow, plainSolutions } from "../uptake/sheets";

const sheet = (
	flasks: readonly TypedRow[],
	more: Partial<TypedRows> = {},
): Trial => trialFromRows({ flasks, solutions: plainSolutions, ...more });

const leaveOut = (what: TypedRow): TypedRow => ({
	"what happened": "cracked",
	handling: "leave out",
	...what,
});

const names = (found: readonly { readonly flask: Flask }[]): string[] =>
	found.map((r) => r.flask.name);

/** The words of a table, row by row, by the heading of their column. */
function shown(trial: Trial): Record<string, string>[] {
	const { columns, rows } = residues(trial).table;
	return rows.map((row) =>
		Object.fromEntries(
			row.map((cell, i) => [columns[i], cellText(cell, columns[i])]),
		),
	);
}

const notes = (trial: Trial): readonly string[] => residues(trial).table.notes;

const blank: TypedRow = {
	flask: "W",
	contents: "reagent blank",
	"aliquot (mL)": 25,
	"titre (mL)": 0.1,
};

describe("flasks that a deviation leaves out", () => {
	const trial = sheet([charRow("a"), charRow("b"), blank], {
		deviations: [leaveOut({ flask: "b" })],
	});

	test("count nowhere, and are shown with the reason", () => {
		expect(names(residues(trial))).toEqual(["a"]);
		expect(names(everyResidue(trial))).toEqual(["a", "b"]);
		expect(shown(trial).map((row) => row.remark)).toEqual([
			"",
			expect.stringMatching(/^Left out: .*cracked.*\.$/),
		]);
	});

	test("one whose solution is left out as well has no residue, and that is said", () => {
		const without = sheet(
			[charRow("a"), charRow("b", { "dose 1 of": "old" })].map((row) => ({
				"dose 1 of": "iodine",
				...row,
			})),
			{
				solutions: [
					...plainSolutions,
					{ ...plainSolutions[0], solution: "old" },
				],
				deviations: [leaveOut({ flask: "b" }), leaveOut({ solution: "old" })],
			},
		);
		expect(names(everyResidue(without))).toEqual(["a"]);
		expect(notes(without).at(-1)).toMatch(
			/^Flask b is left out, without a residue: .*cracked/,
		);
		expect(notes(sheet([charRow("a"), blank]))).toEqual([]);
	});

	test("a flask in use whose solution is left out is a problem", () => {
		const lost = sheet([charRow("a", { "dose 1 of": "iodine" })], {
			deviations: [leaveOut({ solution: "iodine" })],
		});
		expect(() => residues(lost)).toThrow(/which a deviation leaves out/);
	});

	test("a fault of the program is never taken for what is left out", () => {
		const broken = {
			...trial,
			flasks: trial.flasks.map((f) =>
				f.name === "b" ? ({ ...f, events: null } as unknown as Flask) : f,
			),
		};
		expect(() => everyResidue(broken)).toThrow(TypeError);
	});
});

describe("what the table says of titrated flasks", () => {
	test("no column of remarks where there is none", () => {
		const { title, columns } = residues(sheet([charRow("a"), blank])).table;
		expect(title).toBe("Iodine left in solution");
		expect(columns).not.toContain("remark");
	});

	test("titres that lie apart, and a flask below one drop", () => {
		const [apart, dry] = shown(
			sheet([
				charRow("a", {
					"titre (mL)": "",
					"titre 1 (mL)": 5,
					"titre 2 (mL)": 6,
				}),
				charRow("b", { "titre (mL)": "", "titre 1 (mL)": 0.02 }),
			]),
		);
		expect(apart.remark).toMatch(/^Its titres lie from 5 to 6 mL/);
		expect(apart["iodine left, as I2 (mmol)"]).toMatch(/1\.1/);
		expect(dry.remark).toBe("");
		expect(dry["iodine left, as I2 (mmol)"]).toBe("not measurable");
	});
});

describe("notes on the reagent blank", () => {
	const read: TypedRow = {
		...charRow("c"),
		"aliquot (mL)": "",
		"titre (mL)": "",
		"absorbance 1": 0.2,
		dilution: 10,
	};
	const calibration = [0, 100, 200, 400].map((c, i) => ({
		standard: `E${i}`,
		"concentration (mg/L)": c,
		"absorbance 1": 0.001 * c + (i % 2) * 1e-4,
	}));
	const note = (flasks: readonly TypedRow[]): readonly string[] =>
		notes(sheet(flasks, { calibration }));

	test("without one nothing is taken off titres, readings or both", () => {
		expect(note([charRow("a")])).toEqual([
			"No reagent blank is in use for the titres: nothing was taken off them.",
		]);
		expect(note([read])).toEqual([
			"No reagent blank is in use for the readings: nothing was taken off them.",
		]);
		expect(note([charRow("a"), read])).toEqual([
			"No reagent blank is in use for the titres and the readings: nothing was taken off them.",
		]);
		expect(note([charRow("a"), blank, read])).toEqual([
			"No reagent blank is in use for the readings: nothing was taken off them.",
		]);
	});

	test("some readings have one, others none", () => {
		const dark: TypedRow = {
			...read,
			flask: "d",
			"absorbance 1": "",
			"transmittance 1 (%)": 60,
		};
		const clear: TypedRow = {
			flask: "W",
			contents: "reagent blank",
			"absorbance 1": 0.001,
		};
		expect(note([read, dark, clear])).toEqual([
			"No reagent blank is in use for some readings: nothing was taken off them.",
		]);
	});

	test("a blank of another day is told", () => {
		expect(
			note([
				charRow("a", { day: "1" }),
				charRow("b", { day: "2" }),
				{ ...blank, day: "1" },
			]),
		).toEqual([expect.stringMatching(/^Some days have no reagent blank/)]);
		expect(note([charRow("a"), blank])).toEqual([]);
	});
});

describe("what the table says of flasks that an instrument read", () => {
	const reading = (name: string, more: TypedRow): TypedRow => ({
		...charRow(name),
		"aliquot (mL)": "",
		"titre (mL)": "",
		...more,
	});
	const standards = (line: string, unit: "mg/L" | "mmol/L"): TypedRow[] =>
		[0, 1, 2, 4].map((c, i) => ({
			standard: `${line}${i}`,
			line,
			[`concentration (${unit})`]: c,
			"absorbance 1": 0.2 * c + (i % 2) * 1e-3,
		}));
	const dried = { "aliquot (mL)": 25, "dry residue (g)": 0.06 };
	const milligrams = standards("weak", "mg/L");

	test("the unit of the cuvette, where it is one", () => {
		const columnsOf = (
			flasks: readonly TypedRow[],
			calibration: readonly TypedRow[],
		): readonly string[] =>
			residues(sheet(flasks, { calibration })).table.columns;
		const weak = reading("a", { "absorbance 1": 0.4, "read on": "weak" });
		const strong = reading("b", { "absorbance 1": 0.4, "read on": "strong" });
		const both = [...milligrams, ...standards("strong", "mmol/L")];
		expect(columnsOf([weak], milligrams)).toContain("in the cuvette (mg/L)");
		expect(columnsOf([weak, strong], both)).toContain("in the cuvette");
		expect(columnsOf([reading("c", dried)], [])).toContain("in the cuvette");
		expect(columnsOf([weak, reading("c", dried)], milligrams)).toContain(
			"in the cuvette (mg/L)",
		);
	});

	test("what each flask was there for, and how it was read", () => {
		const rows = shown(
			sheet(
				[
					reading("a", { "absorbance 1": 0.4, dilution: 10 }),
					reading("b", {
						contents: "iodine blank",
						treatment: "",
						"char mass (g)": "",
						"absorbance 1": 0.001,
					}),
					reading("l", {
						contents: "leachate",
						"leachate (mL)": 100,
						"leachate taken (mL)": 50,
						"absorbance 1": 1.2,
					}),
				],
				{ calibration: milligrams },
			),
		);
		expect(rows.map((row) => row.contents)).toEqual([
			"char",
			"blank without char",
			"leachate",
		]);
		expect(rows.map((row) => row.remark)).toEqual([
			expect.not.stringContaining("distinguished"),
			expect.stringMatching(/^It cannot be distinguished from a blank\./),
			expect.stringMatching(/^It read higher than the highest standard;/),
		]);
		// What is left goes with the bound of its residue.
		expect(rows[1]["left (mg)"]).toMatch(/^(≤|at most)/);
		expect(rows[0].dilution).toMatch(/^10/);
		// 0.4 stands for about 2 mg/L.
		expect(rows[0]["in the cuvette (mg/L)"]).toMatch(/^\(?(1\.99|2\.00)/);
	});

	test("titrated and read side by side", () => {
		const { title } = residues(
			sheet([charRow("t"), reading("a", { "absorbance 1": 0.4 })], {
				calibration: milligrams,
			}),
		).table;
		expect(title).toBe("Left in solution: iodine");
		const rows = shown(
			sheet(
				[
					charRow("t"),
					reading("a", { "absorbance 1": 0.4 }),
					reading("d", dried),
				],
				{ calibration: milligrams },
			),
		);
		expect(rows.map((row) => row["found by"])).toEqual([
			"titration",
			"line weak",
			"reading by itself",
		]);
		expect(rows.map((row) => row.contents)).toEqual(["char", "char", "char"]);
		const blankOf = (row: TypedRow): TypedRow => ({
			...row,
			contents: "iodine blank",
			treatment: "",
			"char mass (g)": "",
		});
		expect(
			shown(
				sheet(
					[
						charRow("t"),
						reading("a", { "absorbance 1": 0.4 }),
						blankOf(charRow("s")),
						blankOf(reading("b", { "absorbance 1": 0.5 })),
					],
					{ calibration: milligrams },
				),
			).map((row) => row.contents),
		).toEqual(["char", "char", "iodine blank", "blank without char"]);
	});

	test("a dry residue alone", () => {
		const [row] = shown(sheet([reading("d", dried)]));
		expect(row["in the cuvette"]).toBe("read by itself");
		expect(row.remark).toContain("salts of the char too");
	});
});
