/** The head of a page: a stamp, the finding, a row a verdict, what to know before it is quoted. */
import { describe, expect, test } from "vitest";
import { marginOf } from "../../kernel-lib/compare";
import { findingText } from "../../kernel-lib/notebook/finding";
import { headOf } from "../../kernel-lib/notebook/head";
import { answerRows } from "../../kernel-lib/notebook/page/answer-rows";
import { answerMarkup } from "../../kernel-lib/notebook/page/comparison";
import { claimMarkup, leadMarkup } from "../../kernel-lib/notebook/page/head";
import type { PageSheet } from "../../kernel-lib/notebook/page/sheets";
import { stampMarkup } from "../../kernel-lib/notebook/page/stamp";
import type {
	ReportedComparison,
	ReportedDifference,
	ReportedResult,
	ReportedVerdict,
} from "../../kernel-lib/notebook/reported";
import { resultOf } from "../../kernel-lib/notebook/result";
import type { RunRecord } from "../../kernel-lib/notebook/run-record";
import { sortedVerdicts } from "../../kernel-lib/notebook/verdict-table";
import { table } from "../../kernel-lib/quantity";
import { compareTreatments, flasks, group } from "../compare/fixtures";

/** Water against four treatments, none of which is near another. */
function reported(margin = 25): ReportedComparison {
	const c = compareTreatments(
		flasks([
			...group("water", "", [98, 99, 100, 101, 102]),
			...group("like", "water", [99, 100, 101, 100, 100]),
			...group("less", "water", [38, 39, 40, 41, 42]),
			...group("more", "water", [158, 159, 160, 161, 162]),
			...group("most", "water", [258, 259, 260, 261, 262]),
		]),
		margin === 0 ? {} : { margin: marginOf(margin) },
	);
	const { content } = resultOf("verdict", c, "");
	if (content.kind !== "comparison") throw new Error("no comparison");
	return content;
}

/** The first verdict with other words or another difference. */
function changed(
	change: Partial<ReportedVerdict>,
	comparison = reported(),
): ReportedComparison {
	const [first] = sortedVerdicts(comparison);
	return { ...comparison, verdicts: [{ ...first, ...change }] };
}

const statementsOf = (name: string, statements: string[]): ReportedResult =>
	({
		name,
		note: "",
		content: { kind: "statements", statements },
	}) as unknown as ReportedResult;

describe("the finding", () => {
	test("says each word once, the clearest first, with how much more or less", () => {
		expect(findingText(reported())).toMatch(
			/^"most" took up 160\.0 mg\/g more iodine than its control and "more" 60\.0 mg\/g more\. "less" took up 60\.0 mg\/g less iodine than its control\. "like" made no difference that matters\.$/,
		);
	});

	test("is not said without the flask that the word hangs on", () => {
		expect(
			findingText(
				changed({
					word: "higher",
					withDeviations: "cannot tell",
					withoutDeviations: "higher",
				}),
			),
		).toContain("(with the flasks that a deviation touched: cannot tell)");
		expect(
			findingText(
				changed({
					word: "higher",
					withDeviations: "higher",
					withoutDeviations: "lower",
				}),
			),
		).toContain("(without the flasks that a deviation touched: lower)");
		expect(findingText(reported())).not.toContain("deviation");
	});

	test("claims no more than the measuring error allows", () => {
		expect(
			findingText({
				...changed({ measuringErrorOnly: true }),
				scope: "measuring error only",
			}),
		).toMatch(
			/^"most" took up 160\.0 mg\/g more iodine than its control, beyond what measuring error explains\. Nothing is said about the treatment/,
		);
		expect(
			findingText(
				changed({
					measuringErrorOnly: true,
					word: "no difference that matters",
				}),
			),
		).toContain("no difference that matters, as far as measuring error goes");
	});

	test("of a bound says at least", () => {
		expect(
			findingText(changed({ difference: { is: "at least", limit: 40 } })),
		).toContain('"most" took up at least 40 mg/g more iodine');
		expect(
			findingText(
				changed({ difference: { is: "not available", because: "" } }),
			),
		).toBe('"most" took up more iodine than its control.');
	});
});

describe("what the finding must not hide", () => {
	const estimate = (low: number, best: number, high: number) => ({
		...(sortedVerdicts(reported())[0].difference as object),
		estimate: best,
		low,
		high,
	});
	const of = (
		low: number,
		best: number,
		high: number,
		change: object,
	): string =>
		findingText(
			changed({
				difference: estimate(low, best, high) as ReportedDifference,
				...change,
			}),
		);

	test("a small difference has the digits that it needs", () => {
		expect(of(0.277, 0.3, 0.323, {})).toContain("took up 0.300 mg/g more");
	});

	test("that only these lots were looked at", () => {
		expect(findingText({ ...reported(), scope: "these lots" })).toMatch(
			/^In these lots only: "most" took up/,
		);
		expect(findingText(reported())).not.toContain("lots");
	});

	test("whether it is more than matters", () => {
		expect(of(16, 28, 40, { exceedsMargin: false })).toContain(
			"(whether by more than matters is open)",
		);
		expect(of(26, 38, 50, { exceedsMargin: true })).not.toContain("open");
		expect(
			of(16, 28, 40, {
				exceedsMargin: false,
				margin: { is: "not known", because: "" },
			}),
		).not.toContain("open");
	});

	test("that what does not matter may yet be sure", () => {
		const word = "no difference that matters";
		expect(of(5.4, 6, 6.6, { word })).toContain(
			'"most" made no difference that matters (yet surely higher).',
		);
		expect(of(-6.6, -6, -5.4, { word })).toContain("(yet surely lower)");
		expect(of(-1, 0, 1, { word })).not.toContain("surely");
	});

	test("which control, where one treatment has several", () => {
		const c = reported();
		const [first] = sortedVerdicts(c);
		expect(
			findingText({
				...c,
				verdicts: [first, { ...first, control: "other" }],
			}),
		).toMatch(/"most" .* than "water" and "most" .* than "other"/);
		expect(
			findingText({
				...c,
				verdicts: [first, { ...first, control: "other", word: "cannot tell" }],
			}),
		).toContain('cannot tell about "most" against "other"');
	});

	test("a word that leans on a deviation is never only counted", () => {
		const c = reported();
		const [first] = sortedVerdicts(c);
		const verdicts = Array.from({ length: 9 }, (_, i) => ({
			...first,
			treatment: `t${i}`,
			withDeviations: i === 8 ? ("cannot tell" as const) : first.word,
			withoutDeviations: first.word,
		}));
		expect(findingText({ ...c, verdicts })).toMatch(
			/^"t8" took up [^,]*touched/,
		);
	});

	test("an interval by its own confidence, and of the measuring error alone", () => {
		expect(answerRows({ ...reported(), confidence: 0.995 })).toContain(
			"99.5 % interval",
		);
		expect(answerRows(changed({ measuringErrorOnly: true }))).toContain(
			"interval of the measuring error alone",
		);
	});

	test("that a margin could not be had: no band, and a notice", () => {
		const none = changed({ margin: { is: "not known", because: "" } });
		expect(answerRows(none)).not.toMatch(/Grey:|class="band"/);
		expect(answerMarkup(none)).toContain("The margin cannot be had for");
		expect(answerMarkup(reported())).not.toContain("cannot be had");
	});
});

describe("many treatments", () => {
	/** Its first verdict so many times over, under other names. */
	function many(count: number): ReportedComparison {
		const comparison = reported();
		const [first] = sortedVerdicts(comparison);
		return {
			...comparison,
			verdicts: Array.from({ length: count }, (_, i) => ({
				...first,
				treatment: `t${i}`,
			})),
		};
	}

	test("of a word are named up to six, more are counted", () => {
		expect(findingText(many(6))).toMatch(
			/"t4" [\d.]+ mg\/g more and "t5" [\d.]+ mg\/g more\.$/,
		);
		expect(findingText(many(8))).toMatch(
			/"t5" [\d.]+ mg\/g more and 2 more treatments more\.$/,
		);
	});

	test("stand open up to forty, more are folded", () => {
		expect(answerRows(many(40))).not.toContain("more treatments</summary>");
		const html = answerRows(many(42));
		expect(html).toContain("<summary>2 more treatments</summary>");
		expect(html.match(/<tr class="row">/g)).toHaveLength(42);
	});
});

describe("the rows", () => {
	const rows = (c: ReportedComparison): string[] =>
		answerRows(c).match(/<tr class="row">.*?<\/tr>/gs) ?? [];

	test("stand in the order of the finding, each with glyph, word, numbers and sentence", () => {
		const found = rows(reported());
		expect(found).toHaveLength(4);
		expect(found[0]).toContain("most");
		expect(found[0]).toMatch(/▲<\/span> higher/);
		expect(found[2]).toMatch(/▼<\/span> lower.*−60\.0 \(−/s);
		expect(found[3]).toMatch(/●<\/span> no difference that matters/);
		for (const v of reported().verdicts)
			expect(answerRows(reported())).toContain(
				v.sentence.replaceAll('"', "&quot;"),
			);
	});

	/** x of the bar's ends and of zero in a row's picture. */
	function picture(row: string) {
		const [, low, high] =
			/class="bar" d="M([\d.]+) 18H([\d.]+)/.exec(row) ?? [];
		const [, zero] = /class="zero" d="M([\d.]+)/.exec(row) ?? [];
		const [, dot] = /class="dot" cx="([\d.]+)"/.exec(row) ?? [];
		return { low: +low, high: +high, zero: +zero, dot: +dot };
	}

	test("draw each difference on one axis: its side of zero, its ends about its middle", () => {
		const [most, more, less, like] = rows(reported()).map(picture);
		for (const p of [most, more, less, like]) {
			expect(p.low).toBeLessThan(p.dot);
			expect(p.dot).toBeLessThan(p.high);
			expect(p.zero).toBe(most.zero);
		}
		expect(most.low).toBeGreaterThan(more.high);
		expect(more.low).toBeGreaterThan(more.zero);
		expect(less.high).toBeLessThan(less.zero);
		// 160 lies as far from 60 as 60 from -40 would: the axis is even.
		const unit = (more.dot - more.zero) / 60;
		expect(most.dot - most.zero).toBeCloseTo(160 * unit, 0);
		expect(less.dot - less.zero).toBeCloseTo(-60 * unit, 0);
	});

	test("a bound is an arrow away from its limit, no difference no bar", () => {
		const of = (difference: ReportedDifference): string =>
			rows(changed({ difference }))[0];
		const tip = (row: string): number[] =>
			(/M([\d.]+) 18H([\d.]+)/.exec(row) ?? []).slice(1).map(Number);
		const [from, to] = tip(of({ is: "at least", limit: 40 }));
		expect(to).toBeGreaterThan(from);
		const [start, end] = tip(of({ is: "at most", limit: -40 }));
		expect(end).toBeLessThan(start);
		for (const row of [of({ is: "at least", limit: 40 })])
			expect(row).not.toContain('class="dot"');
		expect(of({ is: "not available", because: "" })).not.toContain("bar");
	});

	test("one bar of millions is cut off with heads at the edges, its numbers beside it, and leaves the others their length", () => {
		const whole = reported();
		const verdicts = whole.verdicts.map((v) =>
			v.treatment === "most"
				? {
						...v,
						difference: {
							is: "estimate",
							estimate: 160,
							low: -2e6,
							high: 3e6,
						} as ReportedDifference,
					}
				: v,
		);
		const cut = { ...whole, verdicts };
		const row = rows(cut).find((r) => r.includes(">most<")) ?? "";
		// Zero, and a head at either end.
		expect(row.match(/L[\d.]+ 18L/g)).toHaveLength(2);
		expect(row).toContain("3000000");
		expect(answerRows(cut)).toContain("the bar goes on");
		expect(answerRows(whole)).not.toContain("the bar goes on");
		const less = picture(rows(cut).find((r) => r.includes(">less<")) ?? "");
		expect(less.zero - less.dot).toBeGreaterThan(30);
	});

	test("the band of what would not matter is there only where a margin was set", () => {
		expect(answerRows(reported())).toContain('class="band"');
		expect(answerRows(reported())).toContain("Grey:");
		expect(answerRows(reported(0))).not.toMatch(/class="band"|Grey:/);
	});

	test("what was judged is thick only under no difference that matters", () => {
		const found = rows(reported());
		expect(found.map((r) => r.includes('class="judged"'))).toEqual([
			false,
			false,
			false,
			true,
		]);
		expect(answerRows(reported(0))).not.toContain("Thick");
	});

	test("nothing drawn is other than a number", () => {
		for (const margin of [0, 1e-6, 25, 1e6])
			expect(answerRows(reported(margin))).not.toMatch(
				/NaN|Infinity|undefined/,
			);
	});
});

describe("before it is quoted", () => {
	const page = (...results: [string, string[]][]): string =>
		leadMarkup(headOf(results.map(([name, said]) => statementsOf(name, said))));
	const general = "This does not show that a char is fit for drinking water.";
	const many = (n: number): string[] =>
		Array.from({ length: n }, (_, i) => `Left open ${i}.`);

	test("what the trial leaves open is in sight, what no trial shows in short", () => {
		const html = page(["not concluded", [general, "One soak only.", "No."]]);
		const open = html.slice(0, html.indexOf("<details"));
		expect(open).toContain("One soak only.");
		expect(open).not.toContain("This does not show");
		expect(html).toMatch(
			/<summary><strong>Safety\.<\/strong> Not a test for drinking water, breathing or treating poisoning\.<\/summary>.*This does not show/,
		);
	});

	test("where the sheet promises a use, one line says so", () => {
		const claim =
			'The sheet says "safe": the words are the sheet\'s; nothing here tested it.';
		const told = headOf([
			statementsOf("not concluded", [claim, general, "Open."]),
		]);
		expect(claimMarkup(told)).toContain(
			"nothing here tested it. Not a test for drinking water",
		);
		expect(claimMarkup(told)).not.toContain(general);
		expect(leadMarkup(told)).not.toContain("nothing here tested it");
		expect(
			claimMarkup(headOf([statementsOf("not concluded", [general])])),
		).toBe("");
	});

	test("three are in sight and a fourth; of five two are folded with their count", () => {
		expect(page(["not concluded", many(4)])).not.toContain("<details");
		expect(page(["not concluded", many(5)])).toContain(
			"<summary>2 more</summary><ul><li>Left open 3.",
		);
	});

	test("one step is in sight, and a second; of three two are folded", () => {
		expect(page(["what to do next", many(2)])).not.toContain("<details");
		expect(page(["what to do next", many(3)])).toContain(
			"<summary>2 more</summary><ul><li>Left open 1.",
		);
	});

	test("of a line of more than 150 letters the first sentence is in sight, all of it folded", () => {
		const told = (letters: number) => {
			const text = `First. ${"A".repeat(letters - 8)}.`;
			const { open, folded } = headOf([
				statementsOf("not concluded", [text]),
			]).beforeQuoting;
			return { open, folded, text };
		};
		const short = told(150);
		expect(short).toMatchObject({ open: [short.text], folded: [] });
		const long = told(151);
		expect(long).toMatchObject({ open: ["First."], folded: [long.text] });
		// One long sentence cannot be cut.
		const one = `${"a".repeat(200)}.`;
		expect(
			headOf([statementsOf("not concluded", [one])]).beforeQuoting.open,
		).toEqual([one]);
	});

	test("what a comparison tells of its trial comes first, each once", () => {
		const { beforeQuoting } = headOf([
			{ ...statementsOf("not concluded", ["Of the sheet."]) },
			{
				...statementsOf("verdict", []),
				content: { ...reported(), beforeQuoting: ["Of the trial."] },
			},
		]);
		expect(beforeQuoting.open).toEqual(["Of the trial.", "Of the sheet."]);
	});

	test("a step of a table is told with what it concerns", () => {
		const steps = (concerns: string, what: string) =>
			headOf([
				{ ...statementsOf("verdict", []), content: reported() },
				resultOf(
					"what to do next",
					table("", ["concerns", "what to do", "why"], [[concerns, what, ""]]),
					"",
				),
			]).next.open;
		expect(steps("most", "Soak more.")).toEqual(['"most": Soak more.']);
		expect(steps("flask 7", "Dose it again.")).toEqual([
			"Flask 7: Dose it again.",
		]);
		expect(steps("all treatments", "Nothing more.")).toEqual(["Nothing more."]);
	});
});

describe("the stamp", () => {
	const record: RunRecord = {
		id: "0123456789abcdef",
		settings: [],
		inputs: [
			{ file: "mine.csv", hash: "a", sha256: "" },
			{ file: "mine.solutions.csv", hash: "b", sha256: "" },
		],
		seeds: [],
		versions: { is: "known", library: "9.9.9", node: "22", tslab: "1" },
		times: {
			is: "recorded",
			started: "2026-02-03T04:05:06.000Z",
			ended: "2026-02-03T04:05:07.000Z",
		},
	};
	const comparison = (margin: number): ReportedResult =>
		({
			name: "verdict",
			note: "",
			content: reported(margin),
		}) as ReportedResult;

	test("has sheet, margin, day, version and run", () => {
		expect(stampMarkup(record, [comparison(25)], [], false)).toBe(
			'<p class="stamp">mine.csv and 1 more · margin 25 mg/g, set in a cell · computed 2026-02-03 · Charledger 9.9.9 · run 0123456789ab</p>',
		);
	});

	test("says that no margin was set, and that data are invented only where they are", () => {
		expect(stampMarkup(record, [comparison(0)], [], false)).toContain(
			"no margin set",
		);
		expect(stampMarkup(record, [], [], true)).toContain("Invented demo data");
		expect(stampMarkup(record, [], [], false)).not.toMatch(/invented|margin/i);
	});

	test("says who set the margin", () => {
		const by = (setBy: "user" | "template" | "notebook") =>
			stampMarkup(
				{
					...record,
					settings: [{ name: "marginMgPerG", setBy, is: "value", value: 25 }],
				},
				[comparison(25)],
				[],
				false,
			);
		expect(by("user")).toContain("25 mg/g, set by the user");
		expect(by("template")).toContain("25 mg/g, the template's");
		expect(by("notebook")).toContain("25 mg/g, set in the notebook");
	});

	test("has the days and the operators of the sheets", () => {
		const sheet = (headers: string[], ...cells: string[][]) =>
			({
				headers,
				rows: cells.map((own, row) => ({ row, cells: own, flask: "" })),
			}) as unknown as PageSheet;
		const of = (...sheets: PageSheet[]) =>
			stampMarkup(record, [], sheets, false);
		expect(
			of(
				sheet(
					["day", "operator"],
					["2031-05-13", "N. N."],
					["2031-05-12 09:00", "N. N."],
					["day 1", ""],
				),
			),
		).toContain("· 2031-05-12 to 2031-05-13 · operator N. N. ·");
		expect(of(sheet(["fired on"], ["2031-05-12"]))).toContain("· 2031-05-12 ·");
		const people = (n: number) =>
			of(
				sheet(["operator"], ...Array.from({ length: n }, (_, i) => [`p${i}`])),
			);
		expect(people(3)).toContain("operator p0, p1 and p2");
		expect(people(4)).toContain("operator p0, p1, p2 and 1 more");
		expect(of(sheet(["day"], ["day 1"]))).not.toContain("day 1");
	});

	test("leaves out what is not known", () => {
		const html = stampMarkup(
			{
				...record,
				inputs: [],
				versions: { is: "not known", because: "" },
				times: { is: "not known", because: "" },
			},
			[],
			[],
			false,
		);
		expect(html).toBe('<p class="stamp">run 0123456789ab</p>');
	});
});
