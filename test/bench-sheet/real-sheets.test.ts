/** What people really type into a sheet: each is understood, or asked about in one sentence. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { checkTrial, readTrial } from "../../kernel-lib/bench";
import { problemText } from "../../kernel-lib/quantity";
import { uptakes } from "../../kernel-lib/uptake";

let folder = "";
beforeAll(() => {
	folder = mkdtempSync(join(tmpdir(), "real-sheets-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

const heads =
	"flask,treatment,char mass (g),dose 1 (mL),made up to (mL),aliquot (mL),titre (mL)";
const rows = [
	"1,control,0.591,30,75,25,12.75",
	"2,control,0.596,30,75,25,12.80",
	"3,steam,0.579,30,75,25,10.90",
];
const solutions = [
	"solution,substance,concentration (mol/L),counts",
	"iodine,iodine,0.05,I2",
	"thiosulfate,sodium thiosulfate,0.05,",
];

let count = 0;
function saved(lines: readonly string[], more = solutions): string {
	count += 1;
	const path = join(folder, `sheet-${count}.csv`);
	writeFileSync(path, `${lines.join("\n")}\n`);
	writeFileSync(
		join(folder, `sheet-${count}.solutions.csv`),
		`${more.join("\n")}\n`,
	);
	return path;
}

const found = (path: string): number[] =>
	uptakes(readTrial(path)).map((u) => u.computedUptake.in("mg/g"));
const asked = (path: string): string[] => {
	const checked = checkTrial(path);
	return checked.ok ? [] : checked.problems.map(problemText);
};
const usual = () => found(saved([heads, ...rows]));

describe("a row of units under the headers", () => {
	const units = "unit,-,g,mL,mL,mL,mL";
	const bare = heads.replace(/ \([^)]*\)/g, "");

	test("gives headers without units theirs, and says so", () => {
		const path = saved([bare, units, ...rows]);
		expect(found(path)).toEqual(usual());
		expect(readTrial(path).assumptions.join(" ")).toContain(
			"row 2 holds the units of the columns and is read so",
		);
	});
	test("changes nothing where the headers say the same", () => {
		expect(found(saved([heads, units, ...rows]))).toEqual(usual());
	});
	test("counts: milligrams are milligrams", () => {
		const milligrams = rows.map((r) => r.replace(/0\.(\d{3})/, "$1"));
		const path = saved([bare, units.replace("g,", "mg,"), ...milligrams]);
		found(path).forEach((q, i) => {
			expect(q).toBeCloseTo(usual()[i], 6);
		});
	});
	test("that says otherwise than a header is asked about", () => {
		expect(asked(saved([heads, units.replace("g,", "mg,"), ...rows]))).toEqual([
			expect.stringContaining(
				'row 2, column "char mass (g)": found "mg" under a header that says "g"; expected one unit for a column',
			),
		]);
	});
	test("a first flask is no row of units", () => {
		expect(asked(saved([heads, "g,,,,,,", ...rows])).join(" ")).toContain(
			'found "g" and nothing else in its row',
		);
	});
});

describe("a row that is no flask", () => {
	test("a note at the end is asked about in one sentence", () => {
		expect(
			asked(saved([heads, ...rows, "", "repeat no. 3 next week?"])),
		).toEqual([
			expect.stringMatching(
				/row 6: found "repeat no\. 3 next week\?" and nothing else in its row; .*Is this a note\?.*If it is a note, put it into the column/,
			),
		]);
	});
	test.each(["Total", "mean", "Summe:", "Std. dev."])(
		"a row called %s is asked about in one sentence",
		(name) => {
			expect(
				asked(saved([heads, ...rows, `${name},,1.766,90,,,36.45`])),
			).toEqual([
				expect.stringMatching(
					/row 5: found a row called ".*"; expected rows of single flasks.*Take the row out/,
				),
			]);
		},
	);
	test("a flask called Mean Street is one", () => {
		expect(
			found(saved([heads, ...rows, "Mean Street,steam,0.579,30,75,25,10.90"])),
		).toHaveLength(4);
	});
	test("together with all other problems, the missing control among them", () => {
		const problems = asked(
			saved([
				heads,
				"1,steam,0.59,30,75,25,12,75",
				"2,steam,x,30,75,25,12.8",
				"3,smoke,0.58,30,75,25,12.8",
				"Total,,1,,,,",
			]),
		).join("\n");
		expect(problems).toContain('found a row called "Total"');
		expect(problems).toContain('column "char mass (g)"');
		expect(problems).toContain("no control");
	});
});

describe("other names and a dose that was not given", () => {
	test("0 for no second dose is none, and said", () => {
		const second = heads.replace("made up to", "dose 2 (mL),made up to");
		const path = saved([
			second,
			...rows.map((r) => r.replace(",75,", ",0,75,")),
		]);
		expect(found(path)).toEqual(usual());
		expect(readTrial(path).assumptions.join(" ")).toContain(
			'0 in "dose 2 (mL)" is read as no such dose',
		);
		expect(
			asked(saved([heads, ...rows.map((r) => r.replace(",30,", ",0,"))])).join(
				" ",
			),
		).toContain('column "dose 1 (mL)": found 0');
	});
	test("a jar is a flask, in the deviations too", () => {
		expect(found(saved([heads.replace("flask", "Jar"), ...rows]))).toEqual(
			usual(),
		);
	});
	test.each(["comments", "Remarks", "note"])("%s are notes", (name) => {
		const trial = readTrial(
			saved([`${heads},${name}`, ...rows.map((r) => `${r},spilt a drop`)]),
		);
		expect(trial.flasks[0].notes).toBe("spilt a drop");
	});
	test("beside a column of notes, comments are carried along", () => {
		const trial = readTrial(
			saved([`${heads},notes,comments`, ...rows.map((r) => `${r},a,b`)]),
		);
		expect(trial.flasks[0].notes).toBe("a");
		expect(trial.flasks[0].extra).toEqual({ comments: "b" });
	});
	test("headers such as __proto__ are headers like others", () => {
		const trial = readTrial(
			saved([`${heads},__proto__,constructor`, ...rows.map((r) => `${r},a,b`)]),
		);
		expect(Object.entries(trial.flasks[0].extra)).toEqual([
			["__proto__", "a"],
			["constructor", "b"],
		]);
	});
});

describe("other ways of writing a table", () => {
	test("bars between the cells", () => {
		expect(
			found(saved([heads, ...rows].map((line) => line.replace(/,/g, "|")))),
		).toEqual(usual());
	});
	test("UTF-16 with the high byte first", () => {
		const path = saved([heads, ...rows]);
		const text = Buffer.from(
			`\ufeff${[heads, ...rows].join("\n")}\n`,
			"utf16le",
		);
		writeFileSync(path, text.swap16());
		expect(found(path)).toEqual(usual());
	});
	test("UTF-16 of either order without the mark that says so", () => {
		for (const order of ["low first", "high first"]) {
			const path = saved([heads, ...rows]);
			const text = Buffer.from(`${[heads, ...rows].join("\n")}\n`, "utf16le");
			writeFileSync(path, order === "low first" ? text : text.swap16());
			expect(found(path)).toEqual(usual());
		}
	});
	test.each(["1e-300", "1e300", "-1e-16", "1e16"])(
		"%s is no number of a bench",
		(number) => {
			expect(
				asked(saved([heads, rows[0].replace("12.75", number), rows[1]])).join(
					" ",
				),
			).toContain(
				`row 2, column "titre (mL)": found "${number}", a number that no instrument reads`,
			);
		},
	);
	test("the least and the most that are read", () => {
		const problems = asked(
			saved([heads, rows[0].replace("12.75", "1e-15"), rows[1], rows[2]]),
		);
		expect(problems.join(" ")).not.toContain("no instrument reads");
	});
	test("a cell is shown up to 200 letters", () => {
		const [problem] = asked(
			saved([heads, rows[0].replace("12.75", "x".repeat(5000)), rows[1]]),
		);
		expect(problem).toContain(`"${"x".repeat(200)}…"`);
		expect(problem.length).toBeLessThan(500);
	});
});

describe("a workbook whose sheets are called Sheet1 and Sheet2", () => {
	const xlsx = createRequire(import.meta.url)("xlsx") as typeof import("xlsx");
	const book = (names: readonly [string, string], swapped = false): string => {
		const made = xlsx.utils.book_new();
		const tables = [[heads, ...rows], solutions].map((lines) =>
			xlsx.utils.aoa_to_sheet(
				lines.map((line) =>
					line
						.split(",")
						.map((c) =>
							c !== "" && Number.isFinite(Number(c)) ? Number(c) : c,
						),
				),
			),
		);
		if (swapped) tables.reverse();
		tables.forEach((t, i) => {
			xlsx.utils.book_append_sheet(made, t, names[i]);
		});
		count += 1;
		const path = join(folder, `book-${count}.xlsx`);
		writeFileSync(path, xlsx.write(made, { type: "buffer", bookType: "xlsx" }));
		return path;
	};

	test("is read by its columns, in any order, and says so", () => {
		for (const swapped of [false, true]) {
			const path = book(["Sheet1", "Sheet2"], swapped);
			expect(found(path)).toEqual(usual());
			expect(readTrial(path).assumptions.join(" ")).toContain(
				"were taken by their columns",
			);
		}
	});
	test("named sheets need no such word", () => {
		expect(
			readTrial(book(["flasks", "solutions"])).assumptions.join(" "),
		).not.toContain("by their columns");
	});
});
