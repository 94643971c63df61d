/** Workbooks as spreadsheets write them: each is understood, or asked about in one sentence. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { checkTrial, type Trial } from "../../kernel-lib/bench";
import { problemText } from "../../kernel-lib/quantity";
import { cell, type SheetPart, style, workbook } from "./workbook";

let folder = "";
beforeAll(() => {
	folder = mkdtempSync(join(tmpdir(), "charledger-workbooks-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

type Cell = (at: string) => string;

const heads = [
	"flask",
	"treatment",
	"control",
	"day",
	"char mass (g)",
	"moisture, wet basis (%)",
	"dose (mL)",
	"made up to (mL)",
	"aliquot (mL)",
	"titre (mL)",
	"acidified",
] as const;
/** 11 March 2026 as a day number; 1904 begins 1462 days later. */
const day = 46092;

const row = (
	flask: string,
	treatment: string,
	other: Partial<Record<(typeof heads)[number], Cell>> = {},
): Cell[] => {
	const usual: Record<(typeof heads)[number], Cell> = {
		flask: cell.inline(flask),
		treatment: cell.inline(treatment),
		control: treatment === "water" ? cell.empty() : cell.inline("water"),
		day: cell.number(day, style.date),
		"char mass (g)": cell.number(1.02),
		"moisture, wet basis (%)": cell.number(4.5),
		"dose (mL)": cell.number(40),
		"made up to (mL)": cell.number(100),
		"aliquot (mL)": cell.number(25),
		"titre (mL)": cell.number(5.35),
		acidified: cell.truth(true),
	};
	return heads.map((head) => other[head] ?? usual[head]);
};

const solutions: SheetPart = {
	name: "solutions",
	rows: [
		["solution", "substance", "concentration (N)"].map(cell.inline),
		[cell.inline("iodine"), cell.inline("iodine"), cell.number(0.1)],
		[
			cell.inline("thiosulfate"),
			cell.inline("sodium thiosulfate"),
			cell.number(0.1),
		],
	],
};

const flasks = (
	rows: readonly Cell[][],
	more: Partial<SheetPart> = {},
): SheetPart => ({
	name: "flasks",
	rows: [heads.map(cell.inline), ...rows],
	...more,
});

function check(bytes: Buffer): ReturnType<typeof checkTrial> {
	const path = join(folder, "trial.xlsx");
	writeFileSync(path, bytes);
	return checkTrial(path);
}

function read(bytes: Buffer): Trial {
	const checked = check(bytes);
	if (!checked.ok)
		throw new Error(checked.problems.map(problemText).join("\n"));
	return checked.value;
}

function asked(bytes: Buffer): string {
	const checked = check(bytes);
	if (checked.ok) throw new Error("It was read.");
	return checked.problems.map(problemText).join("\n");
}

/** What was read of the first flask, in plain numbers. */
function first({ flasks: [f] }: Trial): Record<string, unknown> {
	return {
		flask: f.name,
		treatment: f.treatment,
		day: f.day,
		mass: f.charMass.recorded ? f.charMass.value.in("g") : "none",
		moisture: f.moisture.recorded ? f.moisture.value.fraction.in("%") : "none",
		acidified: f.acidified,
	};
}

const whole = {
	flask: "1",
	treatment: "water",
	day: "2026-03-11",
	mass: 1.02,
	moisture: 4.5,
	acidified: "yes",
};

const both = (other: Parameters<typeof row>[2] = {}): Cell[][] => [
	row("1", "water", other),
	row("2", "steam"),
];

describe("understood", () => {
	const date1904 = (): Buffer =>
		workbook(
			[flasks(both({ day: cell.number(day - 1462, style.own) })), solutions],
			{ date1904: true },
		);
	const strings = (): Buffer =>
		workbook(
			[
				{
					name: "flasks",
					rows: [
						heads.map((head) =>
							head === "char mass (g)" ? cell.shared(0) : cell.inline(head),
						),
						...both({ treatment: cell.shared(1), flask: cell.shared(2) }),
					],
				},
				solutions,
			],
			{ texts: [["char", " mass", " (g)"], "water", " 1 "] },
		);

	test.each<[string, () => Buffer]>([
		[
			"inline strings, dates as day numbers, truth values",
			() => workbook([flasks(both()), solutions]),
		],
		["shared strings, some in runs of their own formats", strings],
		["day numbers from 1904 on, in a date format of its own", date1904],
		[
			"formulas by their stored results, numbers and texts",
			() =>
				workbook([
					flasks(
						both({
							"char mass (g)": cell.formula("0.5+0.52", 1.02),
							treatment: cell.formula('"wa"&"ter"', "water"),
						}),
					),
					solutions,
				]),
		],
		[
			"a per cent format, where 4.50 % is kept as 0.045",
			() =>
				workbook([
					flasks(
						both({
							"moisture, wet basis (%)": cell.number(0.045, style.percent),
						}),
					),
					solutions,
				]),
		],
		[
			"a title merged over the headers, and headers merged with an empty row",
			() =>
				workbook([
					flasks([], {
						rows: [
							[cell.inline("Trial of March")],
							heads.map(cell.inline),
							heads.map(() => cell.blank()),
							...both(),
						],
						merged: ["A1:K1", "A2:A3", "B2:B3"],
					}),
					solutions,
				]),
		],
	])("%s", (_, bytes) => {
		expect(first(read(bytes()))).toEqual(whole);
	});

	test("a time of day stays with its date", () => {
		const bytes = workbook([
			flasks(both({ day: cell.number(day + 0.25, style.stamp) })),
			solutions,
		]);
		expect(first(read(bytes)).day).toBe("2026-03-11 06:00:00");
	});

	test("a hidden sheet is not taken for its columns, and that is said; one of our names is read, and that is said", () => {
		const bytes = workbook([
			{ ...flasks([row("9", "old")]), name: "Sheet1", hidden: true },
			{ ...flasks(both()), name: "Sheet2" },
			{ ...solutions, hidden: true },
		]);
		const trial = read(bytes);
		expect(trial.flasks.map((f) => f.name)).toEqual(["1", "2"]);
		expect(trial.assumptions.join("\n")).toContain(
			"hidden sheets were read for their names: solutions.",
		);
		expect(trial.assumptions.join("\n")).toContain(
			"were not read: Sheet1 (hidden).",
		);
	});
});

describe("asked about", () => {
	test("merged cells: the value stands in the first row alone", () => {
		const bytes = workbook([
			flasks([row("1", "water"), row("2", "steam", { day: cell.blank() })], {
				merged: ["D2:D3"],
			}),
			solutions,
		]);
		expect(asked(bytes)).toBe(
			'trial.xlsx, sheet "flasks", row 2, column "D": found the merged cells D2:D3, whose value a file keeps for their first row alone; expected a value in the cell of every row that it holds for. Take the merging off and write the value into each row, or leave those cells empty that have none.',
		);
	});

	test("merged cells without a value take nothing away", () => {
		const none = { day: cell.blank() };
		const bytes = workbook([
			flasks([row("1", "water", none), row("2", "steam", none)], {
				merged: ["D2:D3"],
			}),
			solutions,
		]);
		expect(first(read(bytes)).day).toBe("");
	});

	test("errors of a spreadsheet, in numbers and in texts", () => {
		const bytes = workbook([
			flasks(
				both({
					"titre (mL)": cell.error("#DIV/0!"),
					day: cell.error("#N/A"),
				}),
			),
			solutions,
		]);
		expect(asked(bytes)).toContain(
			'row 2, column "titre (mL)": found the spreadsheet error "#DIV/0!"',
		);
		expect(asked(bytes)).toContain(
			'row 2, column "day": found the spreadsheet error "#N/A"',
		);
	});

	test("a per cent format in a column of millilitres", () => {
		const bytes = workbook([
			flasks(both({ "titre (mL)": cell.number(0.0535, style.percent) })),
			solutions,
		]);
		expect(asked(bytes)).toContain('found "5.35 %"');
	});
});
