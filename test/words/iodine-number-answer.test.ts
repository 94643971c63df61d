import { describe, expect, test } from "vitest";
import { type IodineNumber, iodineNumbers } from "../../kernel-lib/uptake";
import { iodineNumberAnswer } from "../../kernel-lib/words";
import { iodineNumberFinding } from "../../kernel-lib/words/iodine-number-answer";
import { benchScale, numbers } from "../figures/isotherm-fixtures";
import { charRow, steps } from "../uptake/sheets";

type Found = Extract<IodineNumber, { is: "value" }>;

const [whole] = numbers;
const [scaled] = benchScale;
if (whole.is !== "value" || scaled.is !== "value")
	throw new Error("both demo sheets have a value");
const [none] = iodineNumbers(
	steps([charRow("1", { treatment: "too few" })]).trial,
);

/** The demo's number with conditions of another state. */
const withStates = (...states: Found["conditions"][number]["state"][]): Found =>
	({
		...whole,
		conditions: whole.conditions.map((c, i) => ({
			...c,
			state: states[i] ?? "met",
		})),
	}) as Found;

const other = (treatment: string, number: Found = whole): Found =>
	({ ...number, treatment }) as Found;

describe("the finding of one char", () => {
	test("is an iodine number where every condition is met, with its interval and the count of what was checked", () => {
		expect(iodineNumberFinding(numbers)).toBe(
			'Iodine number of "fired twice": 368 mg/g (361 to 374); 9 of 9 conditions of the standard that a sheet can show are met.',
		);
	});
	test.each([
		[["not met"], "of 9 conditions 1 is not met"],
		[["not recorded"], "of 9 conditions 1 is not recorded"],
		[
			["not met", "met", "not met", "not recorded"],
			"of 9 conditions 2 are not met and 1 is not recorded",
		],
	] as const)("loses the name with %j", (states, unmet) => {
		expect(iodineNumberFinding([withStates(...states)])).toBe(
			`"fired twice" took up 368 mg/g (361 to 374) of iodine at 0.02 N; by the standard this is no iodine number: ${unmet}.`,
		);
	});
	test("of other volumes is no iodine number", () => {
		expect(iodineNumberFinding(benchScale)).toContain(
			"by the standard this is no iodine number: of 9 conditions 3 are not met and 1 is not recorded.",
		);
	});
	test("says which dosages are not in it, and that the line is read beyond its points", () => {
		const offTheLine = ["Flask 4 is left out: spilt."];
		const number = { ...whole, offTheLine } as Found;
		expect(iodineNumberFinding([number])).toContain(
			"(361 to 374), from 3 of 4 dosages; 9 of 9",
		);
		const line = (...range: [number, number]): Found =>
			({ ...whole, line: { ...whole.line, range } }) as Found;
		const beyond = "read beyond the residues of its points";
		expect(iodineNumberFinding([line(0.021, 0.04)])).toContain(beyond);
		expect(iodineNumberFinding([line(0.01, 0.019)])).toContain(beyond);
		expect(iodineNumberFinding([line(0.02, 0.04)])).not.toContain(beyond);
		expect(iodineNumberFinding([line(0.01, 0.02)])).not.toContain(beyond);
	});
	test("without a value says why", () => {
		expect(iodineNumberFinding([none])).toBe(
			'No iodine number for "too few": 1 of 1 dosages gave a point; a line with an error needs three at different residues.',
		);
	});
	test("of a sheet without chars says so", () => {
		const answer = iodineNumberAnswer([]);
		expect(answer.finding).toMatch(/^This sheet holds no char/);
		expect(answer.table.rows).toEqual([]);
		expect(answer.statements).toEqual([]);
	});
});

describe("the finding of several chars", () => {
	test("names up to three", () => {
		const three = [whole, withStates("not met"), none];
		expect(iodineNumberFinding(three)).toBe(
			three.map((n) => iodineNumberFinding([n])).join(" "),
		);
	});
	test("of four goes from the lowest to the highest, with the count of what bears the name and what has no value", () => {
		const low = withStates("not met");
		const four = [
			other("b"),
			other("a", { ...low, line: { ...low.line, low: 300 } } as Found),
			none,
			none,
		];
		expect(iodineNumberFinding(four)).toBe(
			'Uptake of iodine at 0.02 N, 4 chars: from 368 mg/g (361 to 374) of "b" to 368 mg/g (300 to 374) of "a"; 1 of 2 are iodine numbers by the standard; 2 of 4 without a value.',
		);
		expect(
			iodineNumberFinding([other("a"), other("b"), other("c"), other("d")]),
		).toMatch(/; all of these are iodine numbers by the standard\.$/);
		expect(iodineNumberFinding([other("a"), none, none, none])).toMatch(
			/: "a" 368 mg\/g \(361 to 374\); all of these are .*; 3 of 4 without a value\.$/,
		);
		expect(iodineNumberFinding([none, none, none, none])).toBe(
			"None of 4 chars has an iodine number.",
		);
	});
});

describe("the answer", () => {
	test("says of each row which sheet it is from and what it may be called", () => {
		const { table, statements } = iodineNumberAnswer(numbers, benchScale);
		expect(table.rows).toEqual([
			[
				"fired twice, iodine-number.csv",
				"368 (361 to 374)",
				"9 of 9",
				"iodine number",
			],
			[
				"fired twice, bench-scale.csv",
				"368 (364 to 373)",
				"5 of 9",
				"not an iodine number",
			],
		]);
		expect(iodineNumberAnswer(numbers).table.rows[0][0]).toBe("fired twice");
		expect(statements[1]).toContain("rows from bench-scale.csv");
		expect(statements[2]).toContain("no place for these");
	});
	test("speaks of what the sheet has no place for only where the name is given", () => {
		const said = iodineNumberAnswer(benchScale).statements.join(" ");
		expect(said).not.toContain("no place for these");
		expect(said).not.toContain("rows from");
		expect(iodineNumberAnswer([none]).table.rows).toEqual([
			["too few", "no value", "", "not an iodine number"],
		]);
	});
});
