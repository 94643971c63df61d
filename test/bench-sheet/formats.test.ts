import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Trial, TypedRow } from "../../kernel-lib/bench/index";
import {
	checkTrial,
	exampleSheet,
	readTrial,
	trialFromRows,
} from "../../kernel-lib/bench/index";
import { contentHash } from "../../kernel-lib/quantity/index";
import { plainRun } from "./plain-run";
import { brief, changed, char, csv, soundFlasks, soundSolutions } from "./rows";

const require = createRequire(import.meta.url);
let folder = "";
beforeAll(() => {
	folder = mkdtempSync(join(tmpdir(), "bench-sheet-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

let count = 0;
/** Saves a sheet and gives its path. */
function saved(
	flasks: string | Uint8Array,
	solutions: string = csv(soundSolutions),
	extension = "csv",
): string {
	count += 1;
	const path = join(folder, `trial-${count}.${extension}`);
	writeFileSync(path, flasks);
	writeFileSync(
		join(folder, `trial-${count}.solutions.${extension}`),
		solutions,
	);
	return path;
}

/** What was read, without the names of the files and the words about them. */
function readAs(path: string): unknown {
	return plainRun(readTrial(path));
}

/** The same, for files whose columns stand in another order. */
const withoutColumns = (trial: Trial): unknown =>
	plainRun({ ...trial, columns: [] });

const plainCsv = csv(soundFlasks);

describe("CSV", () => {
	test("gives the same run as the rows typed in", () => {
		expect(withoutColumns(readTrial(saved(plainCsv)))).toEqual(
			withoutColumns(trialFromRows(changed("c1", {}))),
		);
	});

	const german = csv(
		soundFlasks.map((row) =>
			Object.fromEntries(
				Object.entries(row).map(([k, v]) => [
					k,
					typeof v === "number" ? String(v).replace(".", ",") : v,
				]),
			),
		),
		";",
		"\r\n",
	);
	const variants: readonly (readonly [string, string | Uint8Array])[] = [
		["a byte order mark", `\ufeff${plainCsv}`],
		["line ends of Windows", plainCsv.replaceAll("\n", "\r\n")],
		["tabs between the cells", csv(soundFlasks, "\t")],
		["semicolons and decimal commas", german],
		[
			"16-bit characters, as spreadsheets save Unicode text",
			new Uint8Array(Buffer.from(`\ufeff${csv(soundFlasks, "\t")}`, "utf16le")),
		],
		[
			"stray and non-breaking spaces",
			plainCsv
				.replaceAll(",potash", ",\u00a0 potash\u202f")
				.replaceAll(",40", ", 40\u00a0")
				.replaceAll("dose 1 (mL)", " Dose  1\u00a0( ml ) "),
		],
		[
			"quoted cells",
			plainCsv.replaceAll("potash", '"potash"').replaceAll(",25,", ',"25",'),
		],
		["empty rows at the end", `${plainCsv}\n,,,,\n \n`],
	];
	for (const [name, text] of variants) {
		test(name, () => {
			expect(withoutColumns(readTrial(saved(text)))).toEqual(
				withoutColumns(trialFromRows(changed("c1", {}))),
			);
		});
	}

	test("a table may be saved with tabs under .tsv", () => {
		expect(
			readAs(saved(csv(soundFlasks, "\t"), csv(soundSolutions, "\t"), "tsv")),
		).toEqual(readAs(saved(plainCsv)));
	});

	test("the mark declared in a line of its own: rows count as in the file", () => {
		const trial = readTrial(saved(`sep=;\r\n${german}`));
		expect(trial.flasks[0].place.row).toBe(3);
		expect(trial.flasks.map((f) => f.name)).toEqual(
			soundFlasks.map((f) => f.flask),
		);
	});

	test("Windows-1252 is read, and said", () => {
		const micro = plainCsv.replaceAll("titre 1 (mL)", "titre 1 (µL)");
		const bytes = Buffer.from(micro, "latin1");
		const trial = readTrial(saved(new Uint8Array(bytes)));
		expect(trial.assumptions.join()).toContain("Windows-1252");
		const [t] = trial.flasks[0].titrations;
		expect(t.is === "titre" && t.titre.in("µL")).toBeCloseTo(5.2, 9);
	});

	test("empty rows between the others are counted, and do not shift the rows", () => {
		const lines = plainCsv.split("\n");
		lines.splice(3, 0, "", ",,,");
		const trial = readTrial(saved(lines.join("\n")));
		expect(trial.flasks.map((f) => f.place.row)).toEqual([
			2, 3, 6, 7, 8, 9, 10,
		]);
		expect(trial.assumptions.join("\n")).toContain("2 empty rows");
	});

	test("lines above the heads are not data, and said", () => {
		const trial = readTrial(saved(`Trial in May\nby the class\n${plainCsv}`));
		expect(trial.flasks[0].place.row).toBe(4);
		expect(trial.assumptions.join("\n")).toContain(
			"2 lines above the header row 3",
		);
	});

	test("one decimal comma among points is the one problem, and does not make the others doubtful", () => {
		const rows = soundFlasks.map((row) => ({
			...row,
			"char mass (g)": row["char mass (g)"] ? "1.038" : "",
		}));
		const odd = rows.map((row, i) =>
			i === 2 ? { ...row, "final pH": "7,5" } : { ...row, "final pH": "7.5" },
		);
		const path = saved(csv(odd, ";"));
		const checked = checkTrial(path);
		expect(checked.ok ? [] : checked.problems.map((p) => p.code)).toEqual([
			"decimal-mark-odd",
		]);
		expect(checked.ok ? "" : checked.problems[0].mend).toContain("is it 7.5?");
	});

	test("a text file that is named like a workbook is told as what it is", () => {
		const checked = checkTrial(
			saved(csv(soundFlasks), csv(soundSolutions), "xlsx"),
		);
		expect(checked.ok ? "" : checked.problems[0].found).toContain(
			"named like a workbook but does not hold one",
		);
	});

	test("a decimal comma between commas is told as what it is", () => {
		const checked = checkTrial(saved(plainCsv.replace("1.02", "1,02")));
		expect(checked.ok).toBe(false);
		if (checked.ok) return;
		expect(checked.problems.map((p) => p.code)).toContain("row-too-long");
	});

	test("two columns under one head are refused", () => {
		const twice = plainCsv.replace("made up to (mL)", "aliquot (ml)");
		const checked = checkTrial(saved(twice));
		expect(!checked.ok && checked.problems.map(brief)).toContain(
			"flasks 1 aliquot (mL): column-twice",
		);
	});

	test("a mark before three digits is read by what the other cells use", () => {
		const of = (flasks: TypedRow[], mark: string): number => {
			const trial = readTrial(saved(csv(flasks, mark)));
			const { charMass } = trial.flasks[0];
			return charMass.recorded ? charMass.value.in("g") : Number.NaN;
		};
		const mass = (text: string): TypedRow =>
			char("1", "control", 5, {
				"char mass (g)": text,
				"made up to (mL)": 5000,
			});
		expect(of([mass("1,023")], ";")).toBeCloseTo(1.023, 12);
		expect(of([mass("1.023")], ";")).toBeCloseTo(1.023, 12);
		expect(of([mass("1.023")], ",")).toBeCloseTo(1.023, 12);
		expect(of([mass("0,923")], ",")).toBeCloseTo(0.923, 12);
		expect(of([mass("1 023,5")], ";")).toBeCloseTo(1023.5, 12);
		expect(of([mass("1'023.5")], ";")).toBeCloseTo(1023.5, 12);
		expect(of([mass(",98")], ";")).toBeCloseTo(0.98, 12);
		expect(of([mass("9.8e-1")], ";")).toBeCloseTo(0.98, 12);
	});

	test("the same content has the same hash wherever it lies, another content another", () => {
		const [a, b] = [readTrial(saved(plainCsv)), readTrial(saved(plainCsv))];
		expect(a.hash).toBe(b.hash);
		expect(a.hash).toBe(contentHash(plainCsv));
		expect(readTrial(saved(`${plainCsv}\n`)).hash).not.toBe(a.hash);
		expect(a.files.map((f) => f.file)).toEqual([
			a.file,
			a.file.replace(".csv", ".solutions.csv"),
		]);
	});

	test("deviations and glassware beside it are read", () => {
		const path = saved(plainCsv);
		writeFileSync(
			path.replace(".csv", ".deviations.csv"),
			"flask;what happened;handling\np1;spilt;keep\n",
		);
		writeFileSync(
			path.replace(".csv", ".glassware.csv"),
			"piece,used for,size (mL),class\npipette 25 mL,aliquot,25,A\n",
		);
		const trial = readTrial(path);
		expect(trial.deviations).toMatchObject([
			{
				targets: [{ is: "flask", name: "p1", part: { is: "whole" } }],
				whatHappened: "spilt",
				handling: "keep",
			},
		]);
		expect(
			trial.instruments.find((i) => i.usedFor === "aliquot"),
		).toMatchObject({
			name: "pipette 25 mL",
			toleranceSource: "from memory: ISO 648, class A",
			place: { row: 2, sheet: "glassware" },
		});
	});

	test("the first sheet to start from is one that can be read", () => {
		const { flasks, solutions } = exampleSheet();
		const trial = readTrial(saved(flasks, solutions));
		expect(trial.flasks.map((f) => f.control)).toEqual([
			"",
			"",
			"water-soaked",
			"water-soaked",
		]);
		expect(flasks).toContain("invented");
	});
});

describe("files that are none", () => {
	const codes = (path: string): string[] => {
		const checked = checkTrial(path);
		return checked.ok ? [] : checked.problems.map((p) => p.code);
	};
	test("a path to nothing, a folder, another kind of file", () => {
		expect(codes(join(folder, "nothing.csv"))).toEqual(["file-unreadable"]);
		expect(codes(folder)).toEqual(["file-unreadable"]);
		const odd = join(folder, "sheet.odt");
		writeFileSync(odd, "flask");
		expect(codes(odd)).toEqual(["file-unreadable"]);
	});
	test("an empty file", () => {
		expect(codes(saved(""))).toContain("column-missing");
	});
	test("no solutions beside it", () => {
		const path = join(folder, "alone.csv");
		writeFileSync(path, plainCsv);
		const checked = checkTrial(path);
		expect(!checked.ok && checked.problems).toMatchObject([
			{
				code: "table-missing",
				where: { sheet: "solutions" },
				expected: expect.stringContaining("alone.solutions.csv"),
			},
		]);
	});
	test("a workbook that is damaged", () => {
		expect(
			codes(saved(new Uint8Array([0x50, 0x4b, 3, 4, 9, 9, 9, 9]), "", "xlsx")),
		).toEqual(["file-unreadable"]);
	});
});

describe("XLSX", () => {
	const xlsx = require("xlsx") as typeof import("xlsx");

	function workbook(
		sheets: Record<string, readonly TypedRow[]>,
		change: (book: import("xlsx").WorkBook) => void = () => undefined,
	): string {
		const book = xlsx.utils.book_new();
		for (const [name, rows] of Object.entries(sheets))
			xlsx.utils.book_append_sheet(
				book,
				xlsx.utils.json_to_sheet(rows as object[], { skipHeader: false }),
				name,
			);
		change(book);
		count += 1;
		const path = join(folder, `book-${count}.xlsx`);
		writeFileSync(path, xlsx.write(book, { type: "buffer", bookType: "xlsx" }));
		return path;
	}

	test("the same content gives the same run as CSV", () => {
		const fromBook = readTrial(
			workbook({ flasks: soundFlasks, solutions: soundSolutions }),
		);
		const fromCsv = readTrial(saved(plainCsv));
		expect(plainRun(fromBook)).toEqual(plainRun(fromCsv));
		expect(fromBook.hash).not.toBe(fromCsv.hash);
		expect(basename(fromBook.file)).toMatch(/\.xlsx$/);
	});

	test("a sheet of deviations is read as the file beside a CSV and the rows typed in are", () => {
		const [{ flask }] = soundFlasks;
		const deviations = [
			{ flask, "what happened": "cracked", handling: "leave out" },
		];
		const fromBook = readTrial(
			workbook({
				flasks: soundFlasks,
				solutions: soundSolutions,
				Deviations: deviations,
			}),
		);
		expect(fromBook.deviations).toHaveLength(1);
		expect(
			fromBook.flasks
				.filter((f) => f.marks.some((m) => m.handling === "leave out"))
				.map((f) => f.name),
		).toEqual([String(flask)]);
		const path = saved(plainCsv);
		writeFileSync(path.replace(".csv", ".deviations.csv"), csv(deviations));
		expect(plainRun(fromBook)).toEqual(plainRun(readTrial(path)));
		expect(() =>
			readTrial(
				workbook({
					flasks: soundFlasks,
					solutions: soundSolutions,
					deviations: [{ ...deviations[0], handling: "forget" }],
				}),
			),
		).toThrow(/sheet "deviations", row 2, column "handling"/);
	});

	test("the first sheet holds the flasks where none has that name; other sheets are told", () => {
		const trial = readTrial(
			workbook({
				Trial: soundFlasks,
				Solutions: soundSolutions,
				scratch: [{ a: 1 }],
			}),
		);
		expect(trial.flasks).toHaveLength(soundFlasks.length);
		expect(trial.assumptions.join("\n")).toContain("not read: scratch");
	});

	test("dates, booleans, stored values of formulas", () => {
		const flasks = [
			char("1", "control", 5.2, {
				acidified: true,
				"dosed at": "x",
				"titrated at": "x",
			}),
		];
		const path = workbook({ flasks, solutions: soundSolutions }, (book) => {
			const sheet = book.Sheets.flasks;
			const heads = Object.keys(flasks[0]);
			const at = (head: string): string =>
				xlsx.utils.encode_cell({ r: 1, c: heads.indexOf(head) });
			sheet[at("dosed at")] = { t: "n", v: 47970.375, z: "yyyy-mm-dd hh:mm" };
			sheet[at("titrated at")] = { t: "n", v: 47971.5, z: "dd/mm/yyyy hh:mm" };
			sheet[at("char mass (g)")] = { t: "n", v: 1.02, f: "0.51*2" };
		});
		const [flask] = readTrial(path).flasks;
		expect(flask.acidified).toBe("yes");
		expect(flask.dosedAt.recorded && flask.dosedAt.value.toISOString()).toBe(
			"2031-05-02T09:00:00.000Z",
		);
		expect(flask.contactTime.recorded && flask.contactTime.value.in("h")).toBe(
			27,
		);
		expect(flask.charMass.recorded && flask.charMass.value.in("g")).toBe(1.02);
	});

	test("a formula without a stored value is refused with its place", () => {
		const path = workbook(
			{ flasks: soundFlasks, solutions: soundSolutions },
			(book) => {
				book.Sheets.flasks.D3 = { t: "n", f: "1+1" } as never;
			},
		);
		const checked = checkTrial(path);
		expect(!checked.ok && checked.problems.map(brief)).toContain(
			"flasks 3 D: formula-without-value",
		);
	});

	test("text with a decimal comma in a workbook", () => {
		const trial = readTrial(
			workbook({
				flasks: [char("1", "control", 5, { "char mass (g)": "0,98" })],
				solutions: soundSolutions,
			}),
		);
		const { charMass } = trial.flasks[0];
		expect(charMass.recorded && charMass.value.in("g")).toBeCloseTo(0.98, 12);
	});
});

describe("rows typed in", () => {
	test("heads may be written differently from row to row; their order is kept", () => {
		const trial: Trial = trialFromRows({
			flasks: [
				char("1", "control", 5),
				{
					flask: "2",
					treatment: "potash",
					"char mass (mg)": 1020,
					"dose (mL)": 20,
					"withdrawn (mL)": 2,
					"withdrawn titre (mL)": 0,
					"dose 2 (mL)": 20,
					"made up to (mL)": 100,
					"aliquot (mL)": 25,
					"titre (mL)": 4,
				},
			],
			solutions: soundSolutions,
		});
		expect(trial.flasks[1].events.map((e) => e.is)).toEqual([
			"dose",
			"withdrawn",
			"dose",
			"made up",
		]);
		expect(trial.file).toBe("typed in");
		expect(trial.flasks[1].place.row).toBe(3);
	});

	test("columns in another order in one row than in the rest are refused, since order is what happened first", () => {
		const checked = checkRowsOf([
			char("1", "control", 5),
			{
				flask: "2",
				treatment: "potash",
				"char mass (g)": 1,
				"made up to (mL)": 100,
				"dose 1 (mL)": 40,
				"aliquot (mL)": 25,
				"titre 1 (mL)": 4,
			},
		]);
		expect(checked).toEqual(["flasks 3 dose 1 (mL): order-of-columns"]);
	});

	test("a table of another name is refused", () => {
		const rows = { ...changed("c1", {}), flaks: [] };
		expect(() => trialFromRows(rows)).toThrow(/flaks/);
	});
});

function checkRowsOf(flasks: TypedRow[]): string[] {
	try {
		trialFromRows({ flasks, solutions: soundSolutions });
		return [];
	} catch (error) {
		return (error as { problems: Parameters<typeof brief>[0][] }).problems.map(
			brief,
		);
	}
}
