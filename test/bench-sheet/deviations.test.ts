import { describe, expect, test } from "vitest";
import {
	checkRows,
	flaskFrame,
	readings,
	selectFlasks,
	type Trial,
	type TypedRow,
	trialFromRows,
	withEveryDeviation,
} from "../../kernel-lib/bench/index";
import {
	compareTreatments,
	marginOf,
	severalDoses,
} from "../../kernel-lib/compare/index";
import { isothermPoints } from "../../kernel-lib/isotherms/index";
import { tableText } from "../../kernel-lib/quantity/index";
import {
	calibrationLines,
	reagentBlanks,
	residues,
} from "../../kernel-lib/residue/index";
import { concentrations } from "../../kernel-lib/solutions/index";
import {
	iodineNumbers,
	recoveries,
	uptakes,
} from "../../kernel-lib/uptake/index";
import { methodSentences } from "../../kernel-lib/words";
import { charRow, plainSolutions } from "../uptake/sheets";

/** A reagent blank, two iodine blanks and three flasks with char; titres in mL of 0.1 mol/L on 25 of 100 mL. */
const flasks: TypedRow[] = [
	{ flask: "W", contents: "reagent blank", "titre 1 (mL)": 0.2 },
	...[9.95, 7.05].map((titre, i) => ({
		flask: `B${i + 1}`,
		contents: "iodine blank",
		"dose (mL)": 40,
		"made up to (mL)": 100,
		"aliquot (mL)": 25,
		"titre 1 (mL)": titre,
	})),
	...[
		["control 1", 5, 5.4],
		["control 2", 5.2, 5.2],
	].map(([flask, first, second]) => ({
		...charRow(String(flask)),
		"titre (mL)": "",
		"titre 1 (mL)": first,
		"titre 2 (mL)": second,
	})),
	{
		...charRow("steam 1", { treatment: "steam", control: "control" }),
		"titre (mL)": "",
		"titre 1 (mL)": 3,
	},
];

const without = (...names: string[]): TypedRow[] =>
	flasks.filter((f) => !names.includes(String(f.flask)));

const trialOf = (
	rows: readonly TypedRow[],
	deviations: readonly TypedRow[] = [],
): Trial =>
	trialFromRows({ flasks: rows, solutions: plainSolutions, deviations });

const leftOut = (row: TypedRow): TypedRow => ({
	...row,
	"what happened": "cracked",
	handling: "leave out",
});

/** Everything that follows from a trial, as numbers. */
function numbersOf(trial: Trial) {
	return {
		blank: reagentBlanks(trial).table.rows.map(String),
		recovery: recoveries(trial).table.rows.map(String),
		residues: residues(trial).map((r) => [
			r.flask.name,
			r.residue.quantity.in("mg/L"),
		]),
		uptakes: uptakes(trial).map((u) => [
			u.flask.name,
			u.computedUptake.in("mg/g"),
			u.computedUptake.standardUncertainty,
		]),
		verdict: compareTreatments(trial, { margin: marginOf(25) }).verdicts.map(
			(v) => [v.word, v.difference],
		),
	};
}

describe("what a deviation leaves out is out everywhere", () => {
	test.each([["W"], ["B2"], ["control 2"], ["B1", "B2"]])(
		"leaving out %s gives what the sheet without its rows gives",
		(...names) => {
			const marked = trialOf(flasks, [leftOut({ flask: names.join("; ") })]);
			expect(numbersOf(marked)).toEqual(numbersOf(trialOf(without(...names))));
		},
	);

	test("an iodine blank that cracked no longer moves the uptakes", () => {
		const control = (deviations: TypedRow[]): number =>
			uptakes(trialOf(flasks, deviations))[0].computedUptake.in("mg/g");
		expect(control([leftOut({ flask: "B2" })])).toBeGreaterThan(
			control([]) + 30,
		);
	});

	test("one titre of two: the other stands alone", () => {
		const marked = trialOf(flasks, [
			leftOut({ flask: "control 1", part: "titre 2" }),
		]);
		const alone = trialOf(
			flasks.map((f) =>
				f.flask === "control 1" ? { ...f, "titre 2 (mL)": "" } : f,
			),
		);
		expect(numbersOf(marked)).toEqual(numbersOf(alone));
	});

	test("every titre of a flask: the flask is out", () => {
		const marked = trialOf(flasks, [
			leftOut({ flask: "control 2", part: "titre 1" }),
			leftOut({ flask: "control 2", part: "titre 2" }),
		]);
		expect(numbersOf(marked)).toEqual(numbersOf(trialOf(without("control 2"))));
	});

	test("kept: nothing changes, and the flask is named in the method", () => {
		const kept = trialOf(flasks, [
			{ flask: "control 2", "what happened": "found late", handling: "keep" },
		]);
		const { verdict, ...numbers } = numbersOf(kept);
		expect(numbers).toEqual({
			...numbersOf(trialOf(flasks)),
			verdict: undefined,
		} as object);
		expect(verdict).toHaveLength(1);
		expect(
			methodSentences(compareTreatments(kept, { margin: marginOf(25) })).join(
				" ",
			),
		).toContain("Deviations touched flask control 2");
	});
});

describe("what was left out stays in sight", () => {
	const trial = trialOf(flasks, [leftOut({ flask: "control 2; B2" })]);

	test("in the tables, with its number and the reason", () => {
		expect(tableText(uptakes(trial).table)).toMatch(
			/control 2 .*Left out: cracked\./,
		);
		expect(tableText(residues(trial).table)).toMatch(
			/B2 .*Left out: cracked\./,
		);
	});

	test("among the points of an isotherm, by its reason", () => {
		expect(isothermPoints(trial)[0].leftOut).toEqual([
			{ flask: "control 2", because: "a deviation: cracked" },
		]);
	});

	test("the comparison is given with and without all that deviations touched", () => {
		const both = (handling: "keep" | "leave out") =>
			numbersOf(withEveryDeviation(trial, handling));
		expect(both("keep")).toEqual(numbersOf(trialOf(flasks)));
		expect(both("leave out")).toEqual(
			numbersOf(trialOf(without("control 2", "B2"))),
		);
	});
});

describe("solutions and standards", () => {
	const standardised = (deviations: TypedRow[]): Trial =>
		trialFromRows({
			flasks: without("B2"),
			solutions: [
				plainSolutions[0],
				{
					solution: "thiosulfate",
					substance: "sodium thiosulfate",
					"standardised against": "iodate",
					"aliquot (mL)": 25,
					"titre 1 (mL)": 25,
					"titre 2 (mL)": 25.1,
					"titre 3 (mL)": 30,
				},
				{
					solution: "iodate",
					substance: "potassium iodate",
					"concentration (mol/L)": 0.01667,
				},
			],
			deviations,
		});
	const strength = (trial: Trial): number =>
		concentrations(trial).concentration("thiosulfate").in("mol/L");

	test("a titre of a standardisation", () => {
		const marked = standardised([
			leftOut({ solution: "thiosulfate", part: "titre 3" }),
		]);
		// 6 x 0.01667 mol/L x 25 mL / 25.05 mL; with the third titre the mean is 26.7 mL.
		expect(strength(marked)).toBeCloseTo((6 * 0.01667 * 25) / 25.05, 6);
		expect(strength(standardised([]))).toBeCloseTo(
			(6 * 0.01667 * 25) / 26.7,
			6,
		);
	});

	test("all titres of a standardisation: the solution has no strength, and says why", () => {
		const marked = standardised(
			[1, 2, 3].map((n) =>
				leftOut({ solution: "thiosulfate", part: `titre ${n}` }),
			),
		);
		expect(() => strength(marked)).toThrow(
			/every titre of the standardisation of "thiosulfate" left out/,
		);
	});

	const dyed = (deviations: TypedRow[], standards = 6): Trial =>
		trialFromRows({
			flasks: [
				{
					flask: "1",
					treatment: "control",
					"char mass (g)": 0.2,
					"dose (mL)": 50,
					"made up to (mL)": 100,
					"absorbance 1": 0.5,
					"absorbance 2": 0.9,
				},
			],
			solutions: [
				{
					solution: "blue",
					substance: "methylene blue",
					"concentration (mg/L)": 200,
				},
			],
			calibration: [0, 1, 2, 4, 6, 8].slice(0, standards).map((c, i) => ({
				standard: `E${i}`,
				"concentration (mg/L)": c,
				"absorbance 1": i === 5 ? 2 : 0.2 * c + 0.001 * (i % 2),
			})),
			deviations,
		});

	test("a standard of a calibration line", () => {
		const line = (trial: Trial) => calibrationLines(trial)[0].coefficients;
		expect(line(dyed([leftOut({ standard: "E5" })]))).toEqual(
			line(dyed([], 5)),
		);
		expect(line(dyed([leftOut({ standard: "E5" })]))).not.toEqual(
			line(dyed([])),
		);
	});

	test("one reading of two", () => {
		const reading = (trial: Trial) =>
			residues(trial)[0].residue.quantity.in("mg/L");
		const marked = dyed([leftOut({ flask: "1", part: "reading 2" })], 5);
		// 0.5 on a line of 0.2 a mg/L.
		expect(reading(marked)).toBeCloseTo(2.5, 1);
		expect(reading(dyed([], 5))).toBeGreaterThan(3);
	});
});

test("a dosage that is left out is out of the iodine number, and named", () => {
	const dosage = (name: string, char: number, titre: number) => ({
		flask: name,
		treatment: "control",
		"char mass (g)": char,
		"mass basis": "dry",
		"liquid added (mL)": 10,
		"dose (mL)": 100,
		"aliquot (mL)": 50,
		"titre (mL)": titre,
	});
	const rows = [
		dosage("1", 1.258, 5.8),
		dosage("2", 1.0118, 10.75),
		dosage("3", 0.7986, 16.3),
		dosage("4", 0.9, 5),
	];
	const number = (trial: Trial) => {
		const [n] = iodineNumbers(trial);
		if (n.is !== "value") throw new Error(n.because);
		return n;
	};
	const spilled = number(trialOf(rows, [leftOut({ flask: "4" })]));
	expect(spilled.line.value.in("mg/g")).toBe(
		number(trialOf(rows.slice(0, 3))).line.value.in("mg/g"),
	);
	expect(spilled.remarks.join(" ")).toContain("Flask 4 is left out: cracked.");
});

test("doses of flasks that are left out do not count", () => {
	const rows = [20, 30, 40, 60].flatMap((dose, i) => [
		charRow(`c${i}`, { "dose (mL)": dose, "titre (mL)": 2 + 2 * i }),
		charRow(`s${i}`, {
			treatment: "steam",
			control: "control",
			"dose (mL)": dose,
			"titre (mL)": 1 + 2 * i,
		}),
	]);
	expect(severalDoses(trialOf(rows)).holds).toBe(true);
	expect(severalDoses(trialOf(rows, [leftOut({ flask: "s1" })])).holds).toBe(
		false,
	);
});

describe("what goes with something that is left out", () => {
	const twoIodines = flasks.map((f) => ({
		...f,
		...("dose (mL)" in f
			? { "dose of": f.flask === "control 2" ? "old iodine" : "iodine" }
			: {}),
	}));
	const sheet = (deviations: TypedRow[]): Trial =>
		trialFromRows({
			flasks: twoIodines,
			solutions: [
				...plainSolutions,
				{ ...plainSolutions[0], solution: "old iodine" },
			],
			deviations,
		});
	const bottle = leftOut({ solution: "old iodine" });

	test("a solution alone: whoever was dosed with it is asked for", () => {
		expect(() => uptakes(sheet([bottle]))).toThrow(
			/"old iodine", which a deviation leaves out \(cracked\)/,
		);
	});

	test("a solution and the flasks dosed with it: the rest goes on, and the tables name them", () => {
		const trial = sheet([bottle, leftOut({ flask: "control 2" })]);
		expect(uptakes(trial).map((u) => u.flask.name)).toEqual([
			"control 1",
			"steam 1",
		]);
		expect(tableText(uptakes(trial).table)).toContain(
			"Flask control 2 is left out, without an uptake: cracked.",
		);
		expect(tableText(residues(trial).table)).toContain(
			"Flask control 2 is left out, without a residue: cracked.",
		);
	});

	test("a solution that is kept: the comparison goes on, with nothing to show without it", () => {
		const kept = sheet([{ ...bottle, handling: "keep" }]);
		const { verdicts } = compareTreatments(kept, { margin: marginOf(25) });
		const plain = compareTreatments(sheet([]), { margin: marginOf(25) });
		expect(verdicts[0].difference).toEqual(plain.verdicts[0].difference);
		expect(verdicts[0].withoutDeviations).toBe("cannot tell");
	});

	const read = (deviations: TypedRow[]): Trial =>
		trialFromRows({
			flasks: ["1", "2"].map((flask) => ({
				flask,
				treatment: "control",
				"char mass (g)": 0.2,
				"dose (mL)": 50,
				"made up to (mL)": 100,
				"absorbance 1": 0.5,
				"read on": flask === "1" ? "good" : "bad",
			})),
			solutions: [
				{
					solution: "blue",
					substance: "methylene blue",
					"concentration (mg/L)": 200,
				},
			],
			calibration: ["good", "bad"].flatMap((line) =>
				[0, 2, 4].map((c) => ({
					line,
					standard: `${line} ${c}`,
					"concentration (mg/L)": c,
					"absorbance 1": 0.2 * c + (c === 2 ? 0.001 : 0),
				})),
			),
			deviations,
		});
	const badLine = leftOut({ standard: "bad 0; bad 2; bad 4" });

	test("a line whose standards are all left out, and the flask that was read on it", () => {
		expect(() => residues(read([badLine]))).toThrow(/"bad"/);
		expect(
			residues(read([badLine, leftOut({ flask: "2" })])).map(
				(r) => r.flask.name,
			),
		).toEqual(["1"]);
	});

	test("every standard of the sheet: it says that they are left out, not that there are none", () => {
		expect(() =>
			residues(
				read([badLine, leftOut({ standard: "good 0; good 2; good 4" })]),
			),
		).toThrow(/every standard of the calibration table left out/);
	});
});

describe("what is not recorded is looked for among what is in use", () => {
	const missing = (trial: Trial): string[] =>
		trial.notRecorded.map((n) => n.what);

	test.each([
		["W", "reagent blank"],
		["B1; B2", "iodine blank"],
	])("%s left out: no %s", (names, what) => {
		const marked = trialOf(flasks, [leftOut({ flask: names })]);
		expect(missing(marked)).toContain(`usable ${what}`);
		expect(missing(trialOf(without(...names.split("; "))))).toContain(what);
		expect(missing(trialOf(flasks)).join()).not.toContain(what);
		expect(missing(withEveryDeviation(marked, "keep")).join()).not.toContain(
			what,
		);
	});

	test("a flask that is left out or not selected is not asked about", () => {
		const rows = flasks.map((f) =>
			f.flask === "control 1" ? f : { ...f, lid: "yes" },
		);
		const lid = (trial: Trial) =>
			trial.notRecorded.filter((n) => n.what === "lid").map((n) => n.flasks);
		expect(lid(trialOf(rows))).toEqual([["control 1"]]);
		expect(lid(trialOf(rows, [leftOut({ flask: "control 1" })]))).toEqual([]);
		expect(lid(selectFlasks(trialOf(rows), ["control 2", "steam 1"]))).toEqual(
			[],
		);
	});

	test("a mixed sheet: blanks of titrated flasks are none for the flasks that were read", () => {
		const mixed = trialFromRows({
			flasks: [
				...flasks,
				{
					...charRow("read"),
					"titre (mL)": "",
					"aliquot (mL)": "",
					"absorbance 1": 0.5,
				},
			],
			solutions: plainSolutions,
			calibration: [0, 1000, 2000, 4000].map((c) => ({
				standard: `E${c}`,
				"concentration (mg/L)": c,
				"absorbance 1": 0.0003 * c + (c === 2000 ? 0.001 : 0),
			})),
		});
		expect(
			mixed.notRecorded.filter((n) => n.what === "reagent blank"),
		).toHaveLength(1);
		expect(tableText(residues(mixed).table)).toContain(
			"No reagent blank is in use for the readings: nothing was taken off them.",
		);
	});
});

describe("what was left out is counted and marked", () => {
	const marked = trialOf(flasks, [leftOut({ flask: "B2; control 2" })]);

	test("in the overview", () => {
		const text = tableText(marked.table);
		expect(text).toMatch(/iodine blanks +2, 1 left out/);
		expect(text).toMatch(/control +2 flasks, 1 left out,/);
		expect(tableText(trialOf(flasks).table)).not.toContain("left out");
	});

	test("in the readings and their frames, where anything is left out", () => {
		const { columns, rows } = readings(marked);
		const at = columns.indexOf("left out");
		expect(
			rows.filter((row) => row[at] === "yes").map(([name]) => name),
		).toEqual(["B2", "control 2"]);
		expect(flaskFrame(marked).columns).toContain("left out");
		expect(readings(trialOf(flasks)).columns).not.toContain("left out");
	});
});

test("a reason is told only where it leaves out", () => {
	const trial = trialOf(flasks, [
		{ flask: "control 2", "what happened": "found late", handling: "keep" },
		leftOut({ flask: "control 2" }),
	]);
	expect(tableText(uptakes(trial).table)).toMatch(
		/control 2 .*Left out: cracked\./,
	);
});

test("a deviation of a flask that was not selected is none of the selection", () => {
	const trial = trialOf(flasks, [
		{ flask: "control 2; B1", "what happened": "late", handling: "keep" },
	]);
	const part = selectFlasks(trial, ["control 1", "steam 1"]);
	expect(part.deviations.map((d) => d.targets.map((t) => t.name))).toEqual([
		["B1"],
	]);
	expect(trial.deviations[0].targets).toHaveLength(2);
});

test("a trial cannot be changed, nor what stands in it", () => {
	const trial = trialOf(flasks, [leftOut({ flask: "W" })]);
	for (const part of [
		trial,
		trial.settings,
		trial.probe,
		trial.flasks,
		trial.flasks[0].marks,
		trial.flasks[1].events,
		trial.deviations[0].targets,
		withEveryDeviation(trial, "keep").flasks,
	])
		expect(Object.isFrozen(part)).toBe(true);
});

describe("the table of deviations", () => {
	const problems = (deviations: TypedRow[]) => {
		const checked = checkRows({
			flasks,
			solutions: plainSolutions,
			deviations,
		});
		return checked.ok
			? []
			: checked.problems.map((p) => [p.code, p.where.column]);
	};
	const row = (cells: TypedRow): TypedRow => ({
		"what happened": "cracked",
		...cells,
	});

	test.each([
		[{ flask: "C9" }, "flask-not-found", "flask"],
		[{ solution: "bromine" }, "solution-not-found", "solution"],
		[{ standard: "E1" }, "standard-not-found", "standard"],
		[{ firing: "kiln 1" }, "firing-not-found", "firing"],
		[{ flask: "W", part: "second titre" }, "deviation-part", "part"],
		[{ flask: "W", part: "rinse 1" }, "deviation-part", "part"],
		[{ flask: "W", part: "titre 2" }, "deviation-part-missing", "part"],
		[{ flask: "W", part: "reading 1" }, "deviation-part-missing", "part"],
		[{ solution: "iodine", part: "titre 1" }, "deviation-part-missing", "part"],
	])("%o: %s", (cells, code, column) => {
		expect(problems([row(cells)])).toEqual([[code, column]]);
	});

	test("a row that names nothing is asked what it touched", () => {
		expect(problems([row({ flask: "W" }), row({ flask: "" })])).toEqual([
			["cell-missing", "flask"],
		]);
	});

	test("a solution alone needs no column for flasks", () => {
		expect(problems([row({ solution: "iodine" })])).toEqual([]);
	});
});
