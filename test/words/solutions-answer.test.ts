import { describe, expect, test } from "vitest";
import { readTrial } from "../../kernel-lib/bench";
import { exact, input, ProblemError, problem } from "../../kernel-lib/quantity";
import {
	concentrations,
	type SolutionAge,
	type Titrants,
} from "../../kernel-lib/solutions";
import { makeUp, makeUpIodine } from "../../kernel-lib/solutions/make-up";
import { solutionsAnswer } from "../../kernel-lib/words";
import { solutionsFinding } from "../../kernel-lib/words/solutions-answer";

const known = concentrations(readTrial("data/demo-run/hazelnut.csv"));
const noSolutions = { ...known, all: [], unresolved: [] } as Titrants;

const { problems } = new ProblemError([
	problem("p", {}, "no aliquot", "an aliquot", "Write it."),
]);

const litres = (mL: number) => input("volume", mL, "mL", exact, {});
const molar = (c: number) => input("concentration", c, "mol/L", exact, {});
const iodine = makeUpIodine(molar(0.05), litres(1000), 2);
const soak = makeUp(
	"K2CO3",
	input("ratio", 10, "%", exact, {}),
	input("mass", 500, "g", exact, {}),
);

/** The demo's solutions, each of another age. */
const aged = (...ages: SolutionAge[]): Titrants =>
	({
		...known,
		all: known.all.map((t, i) => ({
			...t,
			age: ages[i] ?? { is: "of no concern" },
		})),
	}) as Titrants;

const due = (days: number): SolutionAge => ({ is: "due", days, keepsDays: 1 });
const fresh: SolutionAge = { is: "within its time", days: 1, keepsDays: 14 };

describe("the finding", () => {
	test("of one recipe says what to take for how much", () => {
		expect(solutionsFinding([iodine], noSolutions)).toBe(
			"For 0.05 mol/L I2 in potassium iodide, made up to 1000 mL, take 12.69 g of I2 and 25.38 g of KI.",
		);
		expect(solutionsFinding([soak], noSolutions)).toContain("500 g in all");
	});
	test("of several points to the card", () => {
		expect(solutionsFinding([iodine, soak], noSolutions)).toBe(
			"2 solutions to weigh, as the card says.",
		);
	});
	test("of nothing says so", () => {
		expect(solutionsFinding([], noSolutions)).toMatch(/^No solution is asked/);
	});

	test.each<[readonly SolutionAge[], string]>([
		[
			[due(9)],
			'"iodate" is due to be standardised again: it was 9 days old when it was last used.',
		],
		[
			[due(9), due(2)],
			'"iodate" and "thiosulfate" are due to be standardised again.',
		],
		[
			[{ is: "date not recorded" }],
			'The sheet does not say when "iodate" was standardised.',
		],
		[
			[{ is: "standardised afterwards" }],
			'"iodate" was standardised only after its last use.',
		],
		[
			[{ is: "use not recorded" }],
			'The sheet does not say when "iodate" was used, so its age is not known.',
		],
		[
			[fresh, fresh],
			"None of the 3 solutions of the sheet was due to be standardised again when it was last used.",
		],
	])("of ages %j", (ages, said) => {
		expect(solutionsFinding([], aged(...ages))).toBe(said);
	});

	test("puts a strength that cannot be right, or is not known, before age", () => {
		const all = known.all.map((t) => ({
			...t,
			contradiction: { found: "Too strong.", likelyCause: "Look." },
		}));
		const wrong = { ...known, all: all.slice(2) } as Titrants;
		expect(solutionsFinding([soak], wrong)).toMatch(
			/^For 10 % w\/w K2CO3, 500 g in all, take .*; the strength of "iodine" cannot be right; "iodine" is due to be/,
		);
		const answer = solutionsAnswer([], wrong);
		expect(answer.statements.slice(0, 2)).toEqual(["Too strong.", "Look."]);
		expect(answer.table[0].rows[0][1]).toMatch(/^⚠ strength cannot/);
		const [found] = problems;
		const unresolved = [{ name: "lye", problems: [found, found] }];
		const lost = { ...noSolutions, unresolved } as Titrants;
		expect(solutionsFinding([], lost)).toBe(
			'The strength of "lye" is not known.',
		);
		expect(solutionsAnswer([], lost).table[0].rows[0]).toEqual([
			"lye",
			"⚠ mend the sheet",
			"not known",
			"",
		]);
		expect(solutionsAnswer([], lost).statements).toEqual([
			`"lye": found ${found.found} and ${found.found}.`,
		]);
	});
});

describe("the cards", () => {
	test("of the demo: what to weigh for how much, how strong, and what is due", () => {
		const { finding, table, statements } = solutionsAnswer(
			[iodine, soak],
			known,
		);
		expect(finding).toBe(
			'2 solutions to weigh, as the card says; "iodine" is due to be standardised again: it was 9 days old when it was last used.',
		);
		const [weigh, strong] = table;
		expect(weigh.rows[1]).toEqual([
			"10 % w/w K2CO3",
			"50 g of K2CO3 and 450 g of water",
			"500 g in all",
		]);
		expect(strong.rows.map((row) => row[0])).toEqual([
			"iodate",
			"thiosulfate",
			"iodine",
		]);
		expect(strong.rows[2]).toEqual([
			"iodine",
			"⚠ standardise again: 9 days old",
			expect.stringMatching(/^0\.05046 \(0\.0\d+ to 0\.0\d+\)$/),
			"2026-03-09",
		]);
		expect(strong.rows[0][1]).toBe("");
		expect(strong.rows[0][3]).toBe("");
		expect(statements).toEqual([
			expect.stringMatching(/^"iodine" was standardised 9 days before/),
		]);
	});
	test("mark what must be done, and nothing else", () => {
		const cell = (age: SolutionAge): unknown =>
			solutionsAnswer([], aged(age)).table[0].rows[0][1];
		expect(cell({ is: "date not recorded" })).toMatch(/^⚠ standardise again/);
		expect(cell({ is: "due", days: 20, keepsDays: 14 })).toMatch(
			/^⚠ .* 20 days old$/,
		);
		for (const age of [
			fresh,
			{ is: "standardised afterwards" },
			{ is: "use not recorded" },
			{ is: "of no concern" },
		] as const)
			expect(cell(age)).not.toContain("⚠");
	});
	test("are left away where there is nothing on them", () => {
		expect(solutionsAnswer([], noSolutions).table).toEqual([]);
		expect(solutionsAnswer([iodine], noSolutions).table).toHaveLength(1);
	});
});
