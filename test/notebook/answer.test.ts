/** The answer of a notebook: what it may hold, and the head that a page makes of it. */
import { describe, expect, test } from "vitest";
import type { Answer } from "../../kernel-lib/notebook/answer";
import {
	firstSentence,
	headAnswers,
} from "../../kernel-lib/notebook/head-answers";
import { pageHtml } from "../../kernel-lib/notebook/page/index";
import { resultOf } from "../../kernel-lib/notebook/result";
import { table } from "../../kernel-lib/quantity/index";
import {
	comparison,
	hostileFigure,
	massOf,
	notebookReporting,
} from "./samples";

const widths = (columns: number) =>
	table(
		"",
		Array.from({ length: columns }, (_, i) => `c${i}`),
		[Array.from({ length: columns }, () => "x")],
	);

const answer: Answer = {
	finding: "Fired twice holds more.",
	figure: hostileFigure(),
	table: table("", ["char", "mass (g)"], [["a", massOf(1, "m")]]),
	statements: ["One.", "Two.", "Three.", "Four."],
};

const page = (...results: [string, unknown][]): string =>
	pageHtml(notebookReporting(...results), { plotly: "" });

describe("an answer", () => {
	const of = (given: unknown) => resultOf("verdict", given as Answer, "");

	test("is reported with the words of its figure, its table and the numbers in it", () => {
		const { content, ledger } = of(answer);
		expect(content).toMatchObject({
			kind: "answer",
			finding: answer.finding,
			figure: answer.figure?.alt,
			statements: answer.statements,
			tables: [{ columns: ["char", "mass (g)"] }],
		});
		expect(ledger).toHaveLength(1);
	});

	test("needs a finding and nothing else", () => {
		expect(of({ finding: "So." }).content).toEqual({
			kind: "answer",
			finding: "So.",
			figure: "",
			tables: [],
			statements: [],
		});
		expect(() => of({ finding: " " })).toThrow("what was found");
		expect(() => of({ finding: undefined })).toThrow('no "finding"');
	});

	test("takes five columns, not six", () => {
		expect(of({ finding: "So.", table: widths(5) }).content).toHaveProperty(
			"tables.0.columns.length",
			5,
		);
		expect(() => of({ finding: "So.", table: widths(6) })).toThrow(
			"a table of at most 5 columns",
		);
	});

	test("shows forty rows and counts the rest", () => {
		const rows = (n: number) =>
			table(
				"",
				["c"],
				Array.from({ length: n }, (_, i) => [`${i}`]),
			);
		const shown = (n: number) => of({ finding: "So.", table: rows(n) }).content;
		expect(shown(40)).toMatchObject({ tables: [{ notes: [] }] });
		expect(shown(41)).toMatchObject({
			tables: [{ notes: ["1 more rows are not shown here."] }],
		});
		expect(shown(41)).toHaveProperty("tables.0.rows.length", 40);
	});

	test("refuses a part that it does not have, and parts of another kind", () => {
		expect(() => of({ finding: "So.", statement: ["One."] })).toThrow(
			'"statement"',
		);
		expect(() => of({ finding: "So.", statements: "One." })).toThrow("a list");
		expect(() => of({ finding: "So.", figure: "One." })).toThrow("a figure");
		expect(() => of({ finding: "So.", table: "One." })).toThrow("a table");
	});
});

describe("the head of a page", () => {
	test("has the finding as its title, the notebook's own title above it", () => {
		const html = page(["verdict", answer]);
		expect(html).toMatch(
			/<p class="own">Notebook<\/p><h1 id="answer">Fired twice holds more\.<\/h1>/,
		);
		expect(html).toContain("<title>Fired twice holds more. \u2013 Notebook</");
		expect(html.match(/<h1/g)).toHaveLength(1);
	});

	test("then the still figure, the table, the sentences folded; without these two in sight", () => {
		const html = page(["verdict", answer]);
		const lead = html.slice(html.indexOf('class="lead"'), html.indexOf("<nav"));
		const order = ["<picture", "<table", "In words", "One.", "Three."].map(
			(x) => lead.indexOf(x),
		);
		expect(order.every((at) => at > 0)).toBe(true);
		expect([...order].sort((a, b) => a - b)).toEqual(order);
		expect(lead).not.toContain('class="chart"');
		expect(
			page(["verdict", ["So.", "One.", "Two.", "Three.", "Four."]]),
		).toMatch(/<li>Two\.<\/li><\/ul><details class="why"><summary>2 more</);
		// The one that can be pointed at stays in the working.
		expect(html.slice(html.indexOf("<nav"))).toContain('class="chart"');
	});

	test("sets a narrow table beside its figure, and folds a long one under it", () => {
		const shaped = (rows: number, columns: number): string =>
			page([
				"verdict",
				{
					...answer,
					table: {
						...widths(columns),
						rows: Array(rows).fill(widths(columns).rows[0]),
					},
				},
			]);
		expect(shaped(4, 3)).toContain('<div class="beside">');
		expect(shaped(4, 4)).not.toContain('<div class="beside">');
		expect(shaped(4, 4)).not.toContain("In numbers");
		expect(shaped(5, 3)).not.toContain('<div class="beside">');
		expect(shaped(5, 3)).toContain("<summary>In numbers</summary>");
		// Without a figure the table is the answer.
		expect(
			page([
				"verdict",
				{
					...answer,
					figure: undefined,
					table: { ...widths(3), rows: Array(5).fill(widths(3).rows[0]) },
				},
			]),
		).not.toContain("In numbers");
	});

	test("of a list of sentences has the first as its title", () => {
		const html = page(["verdict", ["It is so. By 3.5 mg/g.", "And more."]]);
		expect(html).toContain('<h1 id="answer">It is so.</h1>');
		expect(html).toContain("<li>By 3.5 mg/g.</li><li>And more.</li>");
	});

	test("of a notebook that has found nothing is its own title", () => {
		expect(page(["verdict", []])).toContain('<h1 id="answer">Notebook</h1>');
	});

	test("has what was reported as the verdict drawn above the rows of the first comparison", () => {
		const html = page(
			["verdict drawn", hostileFigure()],
			["verdict", comparison()],
			["at another residue", comparison()],
		);
		const lead = html.slice(html.indexOf('class="lead"'), html.indexOf("<nav"));
		expect(lead.match(/<figure class="shown"/g)).toHaveLength(1);
		expect(lead.indexOf("<figure")).toBeLessThan(
			lead.indexOf('class="verdicts"'),
		);
		expect(page(["verdict", comparison()])).not.toContain('class="shown"');
	});

	test("takes what is called the verdict before any other comparison", () => {
		const found = headAnswers([
			resultOf("another", comparison(), ""),
			resultOf("verdict", { finding: "So." }, ""),
		]);
		expect(found.map((a) => a.is)).toEqual(["answer", "comparison"]);
	});
});

test("the first sentence ends before a capital letter, not inside a number", () => {
	expect(firstSentence("By 3.5 mg/g at 0.1 mol/L. Then more.")).toEqual({
		first: "By 3.5 mg/g at 0.1 mol/L.",
		rest: "Then more.",
	});
	expect(firstSentence("No end")).toEqual({ first: "No end", rest: "" });
	expect(firstSentence('So. "steam" too.').first).toBe("So.");
	expect(firstSentence("Treated, e.g. by steam. Ends.").first).toBe(
		"Treated, e.g. by steam.",
	);
});
